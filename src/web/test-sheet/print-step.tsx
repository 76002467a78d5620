import { Button } from '@mantine/core';
import type { PrintSetup, TestSheet } from '#contract';
import { testSheetFileUrl, useTestSheetPreview } from '../api/index.js';
import { bytesText } from '../words/index.js';
import styles from './test-sheet.module.css';

/** Take the sheet and print it by the way all work is printed. */
export function PrintStep(props: {
  readonly sheet: TestSheet;
  readonly setup: PrintSetup | null;
  onPrinted(): void;
}) {
  const { sheet, setup, onPrinted } = props;
  const files = [...sheet.files].sort((one) => (one.kind === 'sheet' ? -1 : 1));
  const throughPath = sheet.kind === 'check' || sheet.kind === 'palette';
  return (
    <div className={styles.twoSides}>
      <div className={styles.side}>
        <div className="row">
          {files.map((file) => (
            <Button
              key={file.fileName}
              component="a"
              href={testSheetFileUrl(sheet, file.fileName)}
              download={file.fileName}
              size="md"
              variant={file.kind === 'sheet' ? 'filled' : 'default'}
            >
              {file.kind === 'sheet' ? 'Save the sheet' : 'Save its ticket'} ({file.format.toUpperCase()},{' '}
              {bytesText(file.bytes)})
            </Button>
          ))}
        </div>
        <p>
          Print it <strong>exactly as you print your work</strong>: what is measured is the whole way from
          file to piece.
        </p>
        <ol className={styles.list}>
          <li>
            <strong>At 100 %.</strong> No fitting to the page.
          </li>
          <li>
            {sheet.mirroredBy === 'sheet' ? (
              <>
                <strong>Mirroring off</strong> in the driver: the sheet is mirrored already.
              </>
            ) : (
              <>
                <strong>Mirroring on</strong> in the driver: this setup leaves it to the driver.
              </>
            )}
          </li>
          <li>
            <strong>No colour correction on the way</strong> but the one your setup always has.{' '}
            {throughPath
              ? 'The path is already in the sheet’s numbers.'
              : 'The sheet holds plain numbers: they must come to the printer as they are.'}
          </li>
          {setup && (
            <li>
              <strong>The driver as for “{setup.name}”</strong>, on {setup.paper.printSide.replace(/\.$/, '')}
              :
              <ul>
                {setup.driverSettings.map((setting) => (
                  <li key={setting}>{setting}</li>
                ))}
              </ul>
            </li>
          )}
          <li>
            <strong>Read the marked line on the paper:</strong> it must read backwards. If not, do not press.
          </li>
        </ol>
        <div>
          <Button variant="default" onClick={onPrinted}>
            It is printed
          </Button>
        </div>
      </div>
      <SheetPicture sheet={sheet} />
    </div>
  );
}

/** How it must come out of the printer. Decoration beside the words. */
function SheetPicture({ sheet }: { readonly sheet: TestSheet }) {
  const preview = useTestSheetPreview(sheet.order, 'paper', 600);
  if (preview.error) return null;
  return (
    <figure className={styles.sheetPicture}>
      {preview.url && <img src={preview.url} alt="The sheet as it must come out of the printer" />}
    </figure>
  );
}
