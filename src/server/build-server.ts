import multipart from '@fastify/multipart';
import Fastify from 'fastify';
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from 'fastify-type-provider-zod';
import type { Shop } from '#shop';
import { apiDocs } from './api-docs.js';
import { guard } from './guard.js';
import { securityHeaders } from './headers.js';
import { servePage } from './page.js';
import { answerEarly, answerNoHttp, answerProblems } from './problem-details.js';
import { artworkRoutes } from './routes-artwork.js';
import { catalogueRoutes } from './routes-catalogue.js';
import { colourRoundRoutes } from './routes-colour-round.js';
import { evennessRoutes } from './routes-evenness.js';
import { heatRoutes } from './routes-heat.js';
import { jobRoutes } from './routes-jobs.js';
import { ladderRoutes } from './routes-ladders.js';
import { pathQuestionRoutes } from './routes-path-questions.js';
import { pathRoutes } from './routes-paths.js';
import { pressRoutes } from './routes-presses.js';
import { readBackRoutes } from './routes-read-back.js';
import { readerRoutes } from './routes-readers.js';
import { readingRoutes } from './routes-readings.js';
import { recipeRoutes } from './routes-recipes.js';
import { sheetRoutes } from './routes-sheets.js';
import { shopRoutes } from './routes-shop.js';
import { testSheetRoutes } from './routes-test-sheets.js';

export interface ServerOptions {
  readonly shop: Shop;
  /** The built page's folder; default dist/web. */
  readonly pageFolder?: string;
  /** Told of faults inside the program; the caller only gets a sentence. Default: standard error. */
  readonly onFault?: (error: unknown) => void;
}

/** The server with all its routes, not yet listening (tests call it through `inject`). */
export async function buildServer(options: ServerOptions) {
  const { shop } = options;
  const onFault = options.onFault ?? ((error: unknown) => console.error(error));
  const app = Fastify({
    bodyLimit: 1_000_000,
    routerOptions: { maxParamLength: 300 },
    // Open event streams must not hold up the end.
    forceCloseConnections: true,
    logger: false,
    clientErrorHandler: answerNoHttp,
    frameworkErrors: (error, _request, reply) => answerEarly(error, reply, onFault),
  }).withTypeProvider<ZodTypeProvider>();
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  answerProblems(app, onFault);
  securityHeaders(app);
  guard(app);
  await app.register(multipart, {
    // The byte limit is upload.ts's, so that it is said in our words; one file, a few short fields.
    limits: {
      fileSize: Number.MAX_SAFE_INTEGER,
      files: 4,
      fields: 20,
      fieldSize: 20_000,
      fieldNameSize: 100,
      headerPairs: 50,
    },
  });
  await apiDocs(app);
  shopRoutes(app, shop);
  catalogueRoutes(app, shop);
  pressRoutes(app, shop);
  pathRoutes(app, shop);
  pathQuestionRoutes(app, shop);
  colourRoundRoutes(app, shop);
  artworkRoutes(app, shop);
  sheetRoutes(app, shop);
  readBackRoutes(app, shop);
  testSheetRoutes(app, shop);
  readingRoutes(app, shop);
  readerRoutes(app, shop);
  ladderRoutes(app, shop);
  evennessRoutes(app, shop);
  heatRoutes(app, shop);
  recipeRoutes(app, shop);
  jobRoutes(app, shop);
  await servePage(app, options.pageFolder);
  return app;
}
