/**
 * Every code a Problem can bear. `kind` is what a door needs to know; `title` names the trouble in general
 * (the Problem's own message names it in particular). docs/problems.md is tested against this table.
 *
 * input    the thing given is wrong               HTTP 422, exit 2
 * missing  the thing named is not there           HTTP 404, exit 3
 * conflict it clashes with what is there          HTTP 409, exit 4
 * limit    larger than a set bound                HTTP 413, exit 5
 * disk     the machine could not keep it          HTTP 507, exit 6
 * cancelled a person stopped it                   HTTP 499, exit 7
 * internal a fault of the program                 HTTP 500, exit 1
 */
export const problemCodes = {
  'request.invalid': { kind: 'input', title: 'The request is not in the form expected' },
  'image.unreadable': { kind: 'input', title: 'The image cannot be read' },
  'image.wrong-type': { kind: 'input', title: 'The file is not an image this program reads' },
  'image.too-large': { kind: 'limit', title: 'The image is larger than the set limit' },
  'profile.broken': { kind: 'input', title: 'The ICC profile is broken' },
  'profile.unsupported': { kind: 'input', title: 'The ICC profile is of a kind that cannot be used here' },
  'blank.invalid': { kind: 'input', title: 'The blank has a value that cannot be' },
  'setup.invalid': { kind: 'input', title: 'The print setup has a value that cannot be' },
  'sheet.impossible': { kind: 'input', title: 'No such sheet can be made' },
  'output.unsupported': { kind: 'input', title: 'The output format cannot hold this sheet' },
  'scan.no-marks': { kind: 'input', title: 'No sheet marks were found in the picture' },
  'scan.wrong-sheet': { kind: 'input', title: 'The picture shows another sheet than the one asked for' },
  'scan.unclear': { kind: 'input', title: 'The picture is not clear enough to be read' },
  'photo.unmatched': { kind: 'input', title: 'The photo could not be laid over the artwork' },
  'measurements.broken': { kind: 'input', title: 'The file of measurements cannot be read' },
  'chart.unusable': { kind: 'input', title: 'No colour path can be made from these measurements' },
  'press.invalid': { kind: 'input', title: 'The press, stack or recipe has a value that cannot be' },
  'press.unsafe': { kind: 'input', title: 'The temperature is above the safety bound' },
  'ladder.unusable': { kind: 'input', title: 'No press window can be read from these coupons' },
  'causes.invalid': { kind: 'input', title: 'The book of causes has an entry that cannot be used' },
  'record.missing': { kind: 'missing', title: 'There is no such record' },
  'file.missing': { kind: 'missing', title: 'There is no such file' },
  'record.in-use': { kind: 'conflict', title: 'Something else still uses this record' },
  'record.changed': { kind: 'conflict', title: 'The record was changed meanwhile' },
  'shop.in-use': { kind: 'conflict', title: 'Another program has this shop folder open' },
  'shop.newer': { kind: 'conflict', title: 'The shop folder was written by a newer program' },
  'disk.full': { kind: 'disk', title: 'The disk is full' },
  'disk.failed': { kind: 'disk', title: 'The disk refused to read or write' },
  'job.cancelled': { kind: 'cancelled', title: 'The work was stopped' },
  'internal.fault': { kind: 'internal', title: 'Something went wrong inside the program' },
} as const satisfies Record<string, { kind: string; title: string }>;

export type ProblemCode = keyof typeof problemCodes;
