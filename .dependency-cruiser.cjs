// The three storeys, as rules. Run by `npm run imports`, which also proves on tests/import-rules/fixture
// (a deliberately illegal copy of the layout) that a breach is really seen.
const beside = (name) => `^(?:tests/import-rules/fixture/)?src/${name}`;

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    {
      name: 'craft-looks-nowhere-up',
      comment: 'craft is pure: it knows no kernels, shop or doors',
      severity: 'error',
      from: { path: beside('craft/') },
      to: { path: beside('(?!craft/)') },
    },
    {
      name: 'craft-has-no-node',
      comment: 'craft has no I/O, so no Node modules',
      severity: 'error',
      from: { path: beside('craft/'), pathNot: '\\.test\\.ts$' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'craft-uses-few-packages',
      comment:
        'craft may use small pure packages only; add one here with a reason: QR codes; JSON that knows its lines',
      severity: 'error',
      from: { path: beside('craft/'), pathNot: '\\.test\\.ts$' },
      to: { path: 'node_modules/', pathNot: 'node_modules/(qrcode-generator|@humanwhocodes/momoa)/' },
    },
    {
      name: 'kernels-stand-beside-craft',
      comment: 'kernels know shapes from craft, nothing else',
      severity: 'error',
      from: { path: beside('kernels/'), pathNot: '\\.test\\.ts$' },
      to: { path: `(?:${beside('(?!craft/|kernels/)')})|node_modules/`, dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'shop-knows-no-door',
      severity: 'error',
      from: { path: beside('shop/') },
      to: { path: beside('(server|cli|web)/') },
    },
    {
      name: 'contract-is-plain',
      comment: 'the contract is shared with the page: zod and itself',
      severity: 'error',
      from: { path: beside('shop/contract/'), pathNot: '\\.test\\.ts$' },
      to: { pathNot: `${beside('shop/contract/')}|node_modules/zod/` },
    },
    {
      name: 'page-sees-contract-and-craft',
      severity: 'error',
      from: { path: beside('web/') },
      to: { path: beside('(?!web/|craft/|shop/contract/)') },
    },
    {
      name: 'doors-are-apart',
      comment: 'the command line may start the server; nothing else crosses between doors',
      severity: 'error',
      from: { path: beside('server/') },
      to: { path: beside('(cli|web)/') },
    },
    {
      name: 'folders-have-one-door',
      comment: 'from outside, a folder is entered by its index.ts',
      severity: 'error',
      from: { path: beside('([a-z]+/[a-z-]+)/') },
      to: {
        path: beside('(craft|shop)/[a-z-]+/.+'),
        pathNot: [`${beside('$1/')}`, '/index\\.ts$', beside('shop/contract/')],
      },
    },
    {
      name: 'doors-enter-by-the-door',
      severity: 'error',
      from: { path: beside('(server|cli|web)/') },
      to: {
        path: beside('(craft|shop|kernels)/[a-z-]+/.+'),
        pathNot: ['/index\\.ts$', beside('shop/contract/')],
      },
    },
    {
      name: 'others-enter-by-the-door',
      comment: 'the same for kernels and for what lies in shop itself',
      severity: 'error',
      from: { path: beside('(?:kernels/|shop/[^/]+$)') },
      to: {
        path: beside('(craft|shop)/[a-z-]+/.+'),
        pathNot: ['/index\\.ts$', beside('shop/contract/')],
      },
    },
    {
      name: 'no-circles',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'everything-resolves',
      severity: 'error',
      from: { pathNot: '\\.test\\.ts$' },
      to: { couldNotResolve: true },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.base.json' },
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)dist/|/assembly/' },
    enhancedResolveOptions: {
      conditionNames: ['source', 'import', 'node', 'default', 'types'],
      exportsFields: ['exports'],
      mainFields: ['module', 'main', 'types'],
      extensions: ['.ts', '.tsx', '.mts', '.js', '.mjs', '.json'],
    },
  },
};
