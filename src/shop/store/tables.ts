/** What stands in the database. `json` is the record in the contract's shape; other columns are for finding and referring. */
export interface Tables {
  blanks: { id: string; name: string; json: string; updatedAt: string };
  setups: { id: string; name: string; colourPathId: string | null; json: string; updatedAt: string };
  colourPaths: { id: string; name: string; iccHash: string; json: string; createdAt: string };
  artwork: {
    id: string;
    json: string;
    /** What was found in the file beyond the contract's record, for whoever draws it. */
    facts: string;
    createdAt: string;
  };
  sheets: {
    id: string;
    artworkId: string;
    json: string;
    /** The blank, setup and colour path as they were when the sheet was made. */
    snapshot: string;
    createdAt: string;
  };
  testSheets: {
    id: string;
    kind: string;
    json: string;
    /** The blank, setup and colour path as they were when the sheet was made. */
    snapshot: string;
    /** What reading the sheet goes by: its patches and places, and what colours were wanted. */
    plan: string;
    createdAt: string;
  };
  /** A reading may be of a sheet that another shop made, so `sheetId` refers to no row here. */
  readings: { id: string; sheetId: string; json: string; createdAt: string };
  readers: { id: string; name: string; json: string; updatedAt: string };
  pathChecks: { id: string; pathId: string; json: string; createdAt: string };
  presses: { id: string; name: string; json: string; updatedAt: string };
  platenChecks: { id: string; pressId: string; json: string; createdAt: string };
  /** What was said and read of a ladder's coupons; its plan is its test sheet's. The sheet may be gone. */
  ladders: { sheetId: string; blankId: string; json: string; updatedAt: string };
  /** The sheet and the press it names may be gone. */
  evennessReadings: { id: string; sheetId: string; pressId: string | null; json: string; createdAt: string };
  /** Versions of a blank's recipe outlive the blank: a run may still speak of one. */
  recipeVersions: { blankId: string; number: number; json: string; createdAt: string };
  jobs: { id: string; key: string; json: string; updatedAt: string };
  /** Stock records once offered to this shop: one a person removed does not come back. */
  stockOffered: { kind: string; id: string };
  settings: { key: string; json: string };
}
