import { Button, FileInput, TextInput } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { useColourPaths, useImportPath, useRemoveRecord } from '../api/index.js';
import { ProblemNote } from '../frame/index.js';
import { dayText, trustText } from '../words/index.js';
import { AskToRemove } from './ask-to-remove.js';
import styles from './setups.module.css';

/** ICC profiles of whole routes, brought in from files or made from measurements. */
export function ColourPaths({ adding }: { readonly adding: boolean }) {
  const paths = useColourPaths();
  const importing = useImportPath();
  const removing = useRemoveRecord('paths');
  const [file, setFile] = useState<File | null>(null);
  const [name, setName] = useState('');
  return (
    <>
      <h2 id="paths-title">Colour paths</h2>
      <p className="soft">
        What comes out of the press for the numbers sent to the printer, as an ICC profile. It holds for one
        route: printer, settings, ink, paper, blank and recipe.
      </p>
      {paths.error && <ProblemNote error={paths.error} />}
      <ul className={styles.list}>
        {paths.data?.map((path) => (
          <li key={path.id} className={styles.path}>
            <span className={styles.rowWords}>
              <span className={styles.rowName}>
                <Link to="/paths/$pathId" params={{ pathId: path.id }}>
                  {path.name}
                </Link>
                {path.demo && <span className="demo-word"> · demo</span>}
              </span>
              <span>{trustText(path)}</span>
              <span className="soft">
                {path.description && path.description !== path.name && `${path.description} · `}ICC{' '}
                {path.iccVersion} · {path.intents.join(', ')} · {dayText(path.createdAt)}
              </span>
            </span>
            <span className="row">
              <AskToRemove what={path.name} onRemove={() => removing.mutate(path.id)} />
            </span>
          </li>
        ))}
      </ul>
      {removing.error && <ProblemNote error={removing.error} />}
      <form
        className={styles.form}
        aria-label="Bring in an ICC profile"
        onSubmit={(event) => {
          event.preventDefault();
          if (file) {
            importing.mutate(
              { file, name: name.trim() || file.name.replace(/\.ic[cm]$/i, '') },
              {
                onSuccess: () => {
                  setFile(null);
                  setName('');
                },
              },
            );
          }
        }}
      >
        <div className={styles.fields}>
          <FileInput
            size="md"
            label="ICC profile"
            description="Of an RGB printer"
            placeholder="Choose an .icc or .icm file"
            accept=".icc,.icm"
            value={file}
            onChange={setFile}
            autoFocus={adding}
            clearable
            clearButtonProps={{ 'aria-label': 'Choose another file' }}
          />
          <TextInput
            size="md"
            label="Call it"
            description="By its route, so you know it again"
            placeholder="Desk printer on tiles"
            value={name}
            onChange={(e) => setName(e.currentTarget.value)}
          />
        </div>
        {importing.error && <ProblemNote error={importing.error} />}
        <div>
          <Button type="submit" variant="default" loading={importing.isPending} disabled={!file}>
            Bring it in
          </Button>
        </div>
      </form>
    </>
  );
}
