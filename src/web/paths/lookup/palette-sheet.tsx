import { Button, Select, Switch } from '@mantine/core';
import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { ColourPath, TestSheetOrderInput } from '#contract';
import {
  useBlanks,
  useSetups,
  useTestSheetMaking,
  useTestSheetPreview,
  useTestSheetProposal,
} from '../../api/index.js';
import { flatFace, ProblemNote, usePreferences, Working } from '../../frame/index.js';
import { sizeText } from '../../words/index.js';
import styles from './lookup.module.css';
import type { PaletteColour } from './use-palette.js';

/** The gathered colours as a sheet to print and press. */
export function PaletteSheet({
  path,
  colours,
}: {
  readonly path: ColourPath;
  readonly colours: readonly PaletteColour[];
}) {
  const navigate = useNavigate();
  const setups = useSetups();
  const blanks = useBlanks();
  const [chosenSetup, setChosenSetup] = useState<string | null>(null);
  const [chosenBlank, setChosenBlank] = useState<string | null>(null);
  const [onFace, setOnFace] = useState(false);
  const { lengthUnit } = usePreferences();
  const known = <T extends { id: string }>(
    records: readonly T[] | undefined,
    id: string | null | undefined,
  ) => records?.find((one) => one.id === id)?.id ?? null;
  // Printed and pressed as the path was, unless something else is chosen.
  const setupId =
    known(setups.data, chosenSetup) ??
    known(setups.data, setups.data?.find((one) => one.colourPathId === path.id)?.id) ??
    known(setups.data, path.belongsTo?.setup.id);
  const blankId = known(blanks.data, chosenBlank) ?? known(blanks.data, path.belongsTo?.blank.id);
  const face = flatFace(blanks.data?.find((one) => one.id === blankId) ?? null);
  const order: TestSheetOrderInput | null =
    setupId && blankId
      ? {
          kind: 'palette',
          setupId,
          blankId,
          pathId: path.id,
          colours: [...colours],
          ...(onFace && face ? face : {}),
        }
      : null;
  const proposal = useTestSheetProposal(order);
  const preview = useTestSheetPreview(order, 'pressed', 900);
  const making = useTestSheetMaking((sheetId) => {
    void navigate({ to: '/measure/sheets/$sheetId', params: { sheetId } });
  });
  return (
    <form
      className={styles.sheet}
      aria-label="Print this palette"
      onSubmit={(event) => {
        event.preventDefault();
        if (order && proposal.data?.possible && !making.busy) making.make(order, { format: 'pdf' });
      }}
    >
      <div className={styles.sheetFields}>
        <h3>Print this palette</h3>
        <Select
          size="md"
          label="Printed with"
          placeholder="Which print setup?"
          data={(setups.data ?? []).map((one) => ({ value: one.id, label: one.name }))}
          value={setupId}
          onChange={setChosenSetup}
        />
        <Select
          size="md"
          label="Pressed on"
          placeholder="Which blank?"
          searchable
          data={(blanks.data ?? []).map((one) => ({ value: one.id, label: one.name }))}
          value={blankId}
          onChange={setChosenBlank}
        />
        {face && (
          <Switch
            size="md"
            label={`As large as its face, ${sizeText(face.widthMm, face.heightMm, lengthUnit)}`}
            checked={onFace}
            onChange={(event) => setOnFace(event.currentTarget.checked)}
          />
        )}
        {proposal.data && <p>{proposal.data.standing}</p>}
        {proposal.data?.remarks.map((remark) => (
          <p key={remark} className="soft">
            {remark}
          </p>
        ))}
        {proposal.error && <ProblemNote error={proposal.error} />}
        {making.problem ? <p role="alert">{`${making.problem.detail} ${making.problem.remedy}`}</p> : null}
        {making.busy ? (
          <Working
            step={making.job?.step ?? 'Starting'}
            share={making.job?.progress ?? null}
            onCancel={making.cancel}
          />
        ) : (
          <div>
            <Button type="submit" size="md" disabled={!order || proposal.data?.possible !== true}>
              Make the palette sheet
            </Button>
          </div>
        )}
      </div>
      {order && (
        <div className={styles.sheetPicture} aria-busy={preview.isFetching}>
          {preview.url && <img src={preview.url} alt="The palette sheet as it reads once pressed" />}
          {preview.error && <ProblemNote error={preview.error} onAgain={() => void preview.refetch()} />}
        </div>
      )}
    </form>
  );
}
