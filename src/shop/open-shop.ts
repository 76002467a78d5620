import path from 'node:path';
import type { ShopFacts } from '#contract';
import { ArtworkShelf } from '#shop/artwork';
import { Blanks, offerStock, Preferences, Setups } from '#shop/catalogue';
import { ColourRound } from '#shop/colour-round';
import { DemoShop, isDemoShop } from '#shop/demo';
import { ContentFiles, type FileSystemPort, nodeFileSystem, onDisk, Scratch } from '#shop/files';
import { HeatDesk } from '#shop/heat-desk';
import { Jobs } from '#shop/jobs';
import { ColourPaths } from '#shop/paths';
import { EvennessReadings, Ladders } from '#shop/press-bench';
import { Presses } from '#shop/presses';
import { readBack } from '#shop/read-back';
import { Readers } from '#shop/readers';
import { Readings } from '#shop/readings';
import { Recipes } from '#shop/recipes';
import { Sheets } from '#shop/sheets';
import { openDatabase, Records } from '#shop/store';
import { TestSheets } from '#shop/test-sheets';
import { shareThreads } from './share-threads.js';
import { programVersion } from './version.js';

export interface OpenShopOptions {
  /** Made when it is not there. */
  readonly folder: string;
  /** Pictures of more pixels are refused. Default 500 million. */
  readonly pixelLimit?: number;
  /** Artwork files of more bytes are refused. Default 2 GB. */
  readonly byteLimit?: number;
  /** Worker threads for making sheets; default: by the machine. */
  readonly workers?: number;
  /** Where the page is served, for the code on tickets made without a server. Default http://127.0.0.1:4710. */
  readonly address?: string;
  readonly clock?: () => Date;
  readonly fileSystem?: FileSystemPort;
  /** Fill an empty shop with the invented regatta. Default true. */
  readonly demo?: boolean;
  /** Told of faults inside the program that no caller hears of. Default: standard error. */
  readonly onFault?: (error: unknown) => void;
}

export type Shop = Awaited<ReturnType<typeof openShop>>;

/**
 * Opens a shop folder, alone, and everything that can be done with it. A new folder gets the stock blanks and
 * setups and the demo's artwork, setup and colour path. Errors: shop.in-use, shop.newer, disk.full, disk.failed.
 */
export async function openShop(options: OpenShopOptions) {
  const folder = path.resolve(options.folder);
  const now = options.clock ?? (() => new Date());
  const fs = options.fileSystem ?? nodeFileSystem;
  const onFault = options.onFault ?? ((error: unknown) => console.error(error));
  const database = await openDatabase(folder);
  const releaseThreads = shareThreads();
  try {
    const records = new Records(database.db);
    const scratch = new Scratch(path.join(folder, 'scratch'), fs);
    await scratch.clear();
    const filesFolder = path.join(folder, 'files');
    await onDisk('the shop folder was opened', () => fs.mkdir(filesFolder));
    const files = new ContentFiles(filesFolder, scratch, fs);
    const limits = {
      maxPixels: options.pixelLimit ?? 500_000_000,
      maxBytes: options.byteLimit ?? 2_000_000_000,
    };

    const preferences = new Preferences(records);
    const blanks = new Blanks(records, now);
    const setups = new Setups(records, now);
    const presses = new Presses(records, now);
    const artwork = new ArtworkShelf(records, files, scratch, limits, now);
    const paths = new ColourPaths(records, files, now, artwork);
    const jobs = new Jobs(records, now, onFault);
    await jobs.recover();
    await offerStock(records, now);

    const address = options.address ?? 'http://127.0.0.1:4710';
    const recordUrl = (sheetId: string) => `${address}/sheets/${sheetId}`;
    const sheets = new Sheets({
      records,
      files,
      scratch,
      artwork,
      blanks,
      setups,
      paths,
      jobs,
      workers: options.workers,
      now,
      recordUrl,
      standingOf: (pathId, about) => colourRound.standing(pathId, about),
    });
    const testSheets = new TestSheets({
      records,
      files,
      scratch,
      blanks,
      setups,
      presses,
      paths,
      jobs,
      workers: options.workers,
      now,
      address,
    });
    const readers = new Readers({ records, files, now, pixelLimit: limits.maxPixels });
    const readings = new Readings({
      records,
      files,
      scratch,
      testSheets,
      readers,
      jobs,
      now,
      pixelLimit: limits.maxPixels,
      onFault,
    });
    const bench = {
      records,
      files,
      scratch,
      testSheets,
      presses,
      readers,
      jobs,
      now,
      pixelLimit: limits.maxPixels,
    };
    const ladders = new Ladders(bench);
    const evenness = new EvennessReadings(bench);
    const heatDesk = new HeatDesk({ records, presses });
    const recipes = new Recipes({ records, presses, ladders, heatDesk, now });
    const colourRound = new ColourRound({
      records,
      testSheets,
      readings,
      paths,
      setups,
      blanks,
      jobs,
      now,
    });

    const demo = new DemoShop({ records, artwork, paths, setups, presses, sheets, testSheets, now, onFault });
    const withDemo = options.demo ?? true;
    const closing = new AbortController();
    let demoSheets: Promise<void> = Promise.resolve();

    const shop = {
      folder,
      limits,
      scratch,
      preferences,
      blanks,
      setups,
      presses,
      paths,
      artwork,
      jobs,
      sheets,
      testSheets,
      readers,
      readings,
      colourRound,
      ladders,
      evenness,
      heatDesk,
      recipes,
      async facts(): Promise<ShopFacts> {
        return {
          version: programVersion,
          folder,
          demo: await isDemoShop(records),
          calibrated: (await setups.list()).some((setup) => setup.colourPathId !== null),
          preferences: await preferences.get(),
        };
      },
      /** What a scan or photo of a sheet tells; a path or the file's bytes. */
      readBack: (source: string | Uint8Array, subject: unknown, signal?: AbortSignal) =>
        readBack(records, source, subject, { pixelLimit: limits.maxPixels, signal }),
      /** Makes the demo's sheets when they are still wanting. A server has it done once it serves. */
      finishDemo(): Promise<void> {
        if (withDemo) demoSheets = demo.makeSheets(closing.signal);
        return demoSheets;
      },
      /** Stops what is under way, then lets the folder go. */
      async close(): Promise<void> {
        closing.abort();
        await Promise.all([jobs.close(), demoSheets]);
        await releaseThreads();
        await database.close();
      },
    };
    if (withDemo) await demo.fill();
    return shop;
  } catch (error) {
    await releaseThreads();
    await database.close();
    throw error;
  }
}
