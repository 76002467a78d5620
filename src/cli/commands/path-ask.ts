import { Command } from 'commander';
import type { DeviceFull } from '#craft/cgats';
import type { Triple3 } from '#craft/colour';
import { Problem } from '#craft/problem';
import {
  closePathThreads,
  colourQuestions,
  deviceQuestions,
  invertColours,
  measurementsOf,
  type Prediction,
  predictColours,
  type Questions,
} from '#shop/paths';
import { table } from '../say.js';
import { globals, readNamed, stoppable } from './common.js';
import { decimal, fullOption, modelNamed, threesFrom } from './path-words.js';

interface PredictOptions {
  readonly rgb?: Triple3[];
  readonly csv?: string;
  readonly full?: '1' | '100' | '255';
}

/** Device values in, colours out. */
export function pathPredictCommand(): Command {
  return fullOption(new Command('predict'))
    .description('what comes out for device values: Lab (D50, 2°) with its standard deviation')
    .argument('<path>', 'id of a measured colour path, or a model file that --model-out wrote')
    .option('--rgb <values>', 'R,G,B, and so on in threes', threesFrom('--rgb'))
    .option('--csv <file>', 'a CSV or CGATS with RGB columns; if it has colours too, they are compared')
    .action(async (known: string, options: PredictOptions, command: Command) => {
      const { say, folder } = globals(command);
      const questions = await deviceValues(options);
      const model = await modelNamed(known, folder);
      const said = await asked(() => predictColours(model.data, questions, stoppable()));
      say.answer({ path: model.name, remarks: questions.remarks, ...said }, () =>
        predictionWords(said, questions.remarks),
      );
    });
}

interface InvertOptions {
  readonly lab?: Triple3[];
  readonly csv?: string;
}

/** Colours in, device values out. */
export function pathInvertCommand(): Command {
  return new Command('invert')
    .description('which device values give a colour (Lab, D50, 2°), and how near it comes')
    .argument('<path>', 'id of a measured colour path, or a model file that --model-out wrote')
    .option('--lab <values>', 'L,a,b, and so on in threes', threesFrom('--lab'))
    .option('--csv <file>', 'a CSV or CGATS with Lab or XYZ columns')
    .action(async (known: string, options: InvertOptions, command: Command) => {
      const { say, folder } = globals(command);
      const wanted = await wantedColours(options);
      const model = await modelNamed(known, folder);
      const rows = await asked(() => invertColours(model.data, wanted, stoppable()));
      say.answer({ path: model.name, rows }, () =>
        table(
          [
            'sample',
            'L*',
            'a*',
            'b*',
            'R',
            'G',
            'B (of 255)',
            'comes L*',
            'a*',
            'b*',
            'miss',
            'expected ΔE00',
            'reached',
          ],
          rows.map((row) => [
            row.sampleId,
            ...row.wantedLab.map((v) => decimal(v)),
            ...row.code8.map(String),
            ...row.lab.map((v) => decimal(v)),
            decimal(row.missDeltaE00, 2),
            decimal(row.expectedDeltaE00, 2),
            row.inGamut ? 'yes' : 'no',
          ]),
        ),
      );
    });
}

async function deviceValues({ rgb, csv, full }: PredictOptions): Promise<Questions> {
  const deviceFull = full === undefined ? undefined : (Number(full) as DeviceFull);
  if (csv !== undefined && rgb === undefined) {
    return deviceQuestions(
      measurementsOf(await readNamed(csv), deviceFull === undefined ? {} : { deviceFull }),
    );
  }
  if (rgb === undefined || csv !== undefined) throw oneOfBoth('--rgb');
  // A few values cannot tell 100 from 255 as a whole chart does: what is beyond 1 is taken as codes of 8 bits.
  const counted = deviceFull ?? (rgb.flat().some((v) => v > 1) ? 255 : 1);
  if (rgb.flat().some((v) => v < 0 || v > counted)) {
    throw new Problem('request.invalid', `--rgb has a value outside 0 to ${counted}.`, {
      remedy: 'Count from 0 to 1, 100 or 255, and say which with --full.',
    });
  }
  return {
    sampleIds: [],
    rgb: rgb.map((row) => row.map((v) => v / counted) as Triple3),
    lab: null,
    remarks: [`RGB values are taken as counted from 0 to ${counted}.`],
  };
}

async function wantedColours({ lab, csv }: InvertOptions) {
  if (csv !== undefined && lab === undefined) return colourQuestions(measurementsOf(await readNamed(csv)));
  if (lab === undefined || csv !== undefined) throw oneOfBoth('--lab');
  if (lab.some(([l, a, b]) => l < 0 || l > 150 || Math.hypot(a, b) > 300)) {
    throw new Problem('request.invalid', '--lab has a colour that cannot be.', {
      remedy: 'L* runs from 0 to 100; a* and b* hardly pass ±130.',
    });
  }
  return { sampleIds: [], lab };
}

const oneOfBoth = (option: string): Problem =>
  new Problem('request.invalid', `Give either ${option} or --csv.`, {
    remedy: `Write ${option} with values, or --csv with a file.`,
  });

async function asked<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } finally {
    await closePathThreads();
  }
}

function predictionWords({ rows, comparison }: Prediction, remarks: readonly string[]): string {
  const compared = comparison !== null;
  return [
    table(
      [
        'sample',
        'R',
        'G',
        'B (of 1)',
        'L*',
        'a*',
        'b*',
        '± L*',
        '± a*',
        '± b*',
        'expected ΔE00',
        ...(compared ? ['ΔE00 to measured'] : []),
      ],
      rows.map((row) => [
        row.sampleId,
        ...row.rgb.map((v) => decimal(v, 3)),
        ...row.lab.map((v) => decimal(v, 2)),
        ...row.sdLab.map((v) => decimal(v, 2)),
        decimal(row.expectedDeltaE00, 2),
        ...(row.deltaE00 === undefined ? [] : [decimal(row.deltaE00, 2)]),
      ]),
    ),
    '± is one standard deviation of the colour itself; a reading scatters more, by its own noise.',
    ...(comparison === null
      ? []
      : [
          `Against the measured colours: mean ${decimal(comparison.mean, 2)}, 95 % within ${decimal(comparison.p95, 2)}, at most ${decimal(comparison.max, 2)} ΔE00.`,
        ]),
    ...remarks,
  ].join('\n');
}
