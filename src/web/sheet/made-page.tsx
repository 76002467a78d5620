import { useDocumentTitle } from '@mantine/hooks';
import { Link, useParams } from '@tanstack/react-router';
import { useColourPaths, useMadeFrom, useSheet } from '../api/index.js';
import { ProblemNote, usePreferences } from '../frame/index.js';
import { dayText, lengthText, trustText } from '../words/index.js';
import { CheckList } from './check-list.js';
import styles from './made-page.module.css';
import { MadeSheet } from './made-sheet.js';
import { pictureUrl } from './picture-url.js';

/** The record of one sheet: where the ticket's code leads. */
export function MadePage() {
  const { sheetId } = useParams({ from: '/sheets/$sheetId' });
  const sheet = useSheet(sheetId);
  const madeFrom = useMadeFrom(sheetId);
  const paths = useColourPaths();
  useDocumentTitle(`Sheet ${sheetId} · Dyewright`);
  const { lengthUnit } = usePreferences();
  if (sheet.error) return <ProblemNote error={sheet.error} />;
  if (!sheet.data) return <h1>Looking it up…</h1>;
  const { request } = sheet.data;
  return (
    <div className={styles.page}>
      <h1>
        {sheet.data.artworkName} on {sheet.data.blankName}
      </h1>
      <p className="soft">
        Made on {dayText(sheet.data.createdAt)} with {sheet.data.setupName};{' '}
        {request.copies === 1 ? 'one piece' : `${request.copies} pieces`}
        {request.placement.mode === 'free'
          ? ''
          : `, ${request.placement.mode === 'fill' ? 'filling the face' : 'fitted inside the face'}`}
        {request.bleedMm === undefined ? '' : `, bleed ${lengthText(request.bleedMm, lengthUnit)}`}.
        {sheet.data.demo && ' A demo record: all of it invented.'}
      </p>
      {madeFrom.data && (
        <p>
          {madeFrom.data.colourPath ? (
            <>
              Colours went through{' '}
              {paths.data?.some((one) => one.id === madeFrom.data.colourPath?.id) ? (
                <Link to="/paths/$pathId" params={{ pathId: madeFrom.data.colourPath.id }}>
                  {madeFrom.data.colourPath.name}
                </Link>
              ) : (
                madeFrom.data.colourPath.name
              )}
              , as it was then: {trustText(madeFrom.data.colourPath)}.
            </>
          ) : (
            'Colours went to the printer as they were: no colour path was known.'
          )}
        </p>
      )}
      <div className={styles.columns}>
        <div className={styles.picture}>
          <img
            src={pictureUrl(request.artworkId, 900)}
            alt={`The artwork ${sheet.data.artworkName}, as it should read`}
          />
        </div>
        <MadeSheet
          sheet={sheet.data}
          blank={madeFrom.data?.blank ?? null}
          setup={madeFrom.data?.setup ?? null}
        />
      </div>
      <CheckList checks={sheet.data.checks} />
      <p>
        <Link
          to="/"
          search={{
            artwork: request.artworkId,
            blank: request.blankId,
            setup: request.setupId,
            placement: request.placement,
            copies: request.copies,
            ...(request.bleedMm === undefined ? {} : { bleedMm: request.bleedMm }),
            ...(request.intent === undefined ? {} : { intent: request.intent }),
            ...(request.blackPointCompensation === undefined
              ? {}
              : { blackPointCompensation: request.blackPointCompensation }),
          }}
        >
          Make another like it
        </Link>
      </p>
    </div>
  );
}
