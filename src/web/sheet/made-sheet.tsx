import { Button } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import type { Blank, PrintSetup, Sheet, SheetFile } from '#contract';
import { usePreferences } from '../frame/index.js';
import { bytesText, pressureNames, sizeText, temperatureText, timeText } from '../words/index.js';
import styles from './made-sheet.module.css';

const fileUrl = (sheet: Sheet, file: SheetFile) =>
  `/api/sheets/${encodeURIComponent(sheet.id)}/files/${encodeURIComponent(file.fileName)}`;

/** The sheet is there: take it and its ticket, then what to do at the printer. */
export function MadeSheet({
  sheet,
  blank,
  setup,
}: {
  readonly sheet: Sheet;
  readonly blank: Blank | null;
  readonly setup: PrintSetup | null;
}) {
  const { lengthUnit, temperatureUnit } = usePreferences();
  const files = [...sheet.files].sort((a) => (a.kind === 'sheet' ? -1 : 1));
  return (
    <div className={styles.made}>
      <h2>Sheet {sheet.id} is made.</h2>
      <p className="soft">
        {sheet.artworkName} on {sheet.blankName}, {sizeText(sheet.widthMm, sheet.heightMm, lengthUnit)} at{' '}
        {sheet.ppi} pixels per inch. {sheet.colourSentence}
      </p>
      <div className="row">
        {files.map((file) => (
          <Button
            key={file.fileName}
            component="a"
            href={fileUrl(sheet, file)}
            download={file.fileName}
            size="md"
            variant={file.kind === 'sheet' ? 'filled' : 'default'}
          >
            {file.kind === 'sheet' ? 'Save the sheet' : 'Save the press ticket'} ({file.format.toUpperCase()},{' '}
            {bytesText(file.bytes)})
          </Button>
        ))}
      </div>
      <h3>Now, at the printer</h3>
      <ol className={styles.steps}>
        <li>
          <strong>Print at 100 %.</strong> No fitting to the page, no shrinking to margins.
        </li>
        <li>
          {sheet.mirroredBy === 'sheet' ? (
            <>
              <strong>Leave mirroring off</strong> in the driver. The sheet is mirrored already; twice would
              be wrong.
            </>
          ) : (
            <>
              <strong>Turn mirroring on</strong> in the driver. This setup leaves it to the driver.
            </>
          )}
        </li>
        {setup && (
          <li>
            <strong>Set the driver</strong> as for this setup, and print on{' '}
            {setup.paper.printSide.replace(/\.$/, '')}:
            <ul>
              {setup.driverSettings.map((setting) => (
                <li key={setting}>{setting}</li>
              ))}
            </ul>
          </li>
        )}
        {bearsMarks(sheet) ? (
          <>
            <li>
              <strong>Read the marked line on the paper.</strong> It must read backwards. If it does not, do
              not press.
            </li>
            <li>
              Unsure? <Link to="/read-back">Scan or photograph the paper and let it be read back.</Link>
            </li>
          </>
        ) : (
          <li>
            <strong>Look at the paper yourself.</strong> It had no room for marks, so it cannot be read back:
            measure the picture, and see that it reads{' '}
            {blank?.coating.seenThrough
              ? 'the right way, because it is looked at through the piece.'
              : 'backwards.'}{' '}
            If not, do not press.
          </li>
        )}
      </ol>
      <h3>Then, at the press</h3>
      {blank && (
        <>
          <p>
            <strong>
              {temperatureText(blank.recipe.platenC, temperatureUnit)}, {timeText(blank.recipe.dwellSeconds)},{' '}
              {pressureNames[blank.recipe.pressure].toLowerCase()} pressure.
            </strong>{' '}
            {blank.recipe.basis} The steps are on the ticket.
          </p>
          {blank.recipe.steps.length > 0 && (
            <details>
              <summary>The steps</summary>
              <ol className={styles.steps}>
                {blank.recipe.steps.map((step) => (
                  <li key={step}>{step}</li>
                ))}
              </ol>
            </details>
          )}
        </>
      )}
      <p className="soft">
        The press and what comes out of it burn: gloves, and fresh air against fumes. Keep spirits and
        solvents away from the heat. Let glass, ceramics and slate cool by themselves; cold water can crack
        them. What the makers say comes before all of this.
      </p>
    </div>
  );
}

/** Whether the line of text and the corner marks found room on it. */
const bearsMarks = (sheet: Sheet): boolean =>
  !sheet.checks.some((check) => check.code === 'sheet.no-room-for-marks');
