import { useState } from 'react';
import { scxmlChart } from '../../engine/exchange/index.ts';
import { type Edition, walkableEdition } from '../../engine/walk/index.ts';
import { FieldDb } from '../../shared/device/field-db.ts';
import { keepEdition } from '../../shared/device/keep-edition.ts';
import { editionFileName, type Publication } from '../../shared/device/publication.ts';
import { walkAddress } from '../desk-route.ts';
import { exportFile } from '../store/export-file.ts';
import { notKeptWords } from './not-kept-words.ts';

type EditionActionsProps = {
  /** A publication, or an edition with its hash alone. */
  readonly publication: Publication | { readonly hash: string; readonly edition: Edition };
  readonly name: string;
};

/** Walks an edition in the field app of this browser, or saves it as a file for another device. */
export function EditionActions({ publication, name }: EditionActionsProps) {
  const [wrong, setWrong] = useState<string>();
  const { hash, edition } = publication;
  const walk = async (): Promise<void> => {
    const db = new FieldDb();
    try {
      await keepEdition(db, edition, 'desk');
      location.href = walkAddress(hash);
    } catch (error) {
      setWrong(`The edition could not be put where the field app finds it: ${notKeptWords(error)} Download it, and open the file there.`);
    } finally {
      db.close();
    }
  };
  const download = (): void => {
    const content = 'format' in publication ? publication : edition;
    const address = URL.createObjectURL(new Blob([JSON.stringify(content)], { type: 'application/json' }));
    const link = document.createElement('a');
    link.href = address;
    link.download = editionFileName(name, hash);
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
  };
  const chart = (): void => void exportFile({ path: `${name}.${hash.slice(0, 12)}.scxml`, text: scxmlChart(walkableEdition(edition)) });
  return (
    <span className="edition-actions">
      <button type="button" className="button button-quiet" aria-label={`Walk edition ${hash.slice(0, 12)}`} onClick={walk}>
        Walk it
      </button>{' '}
      <button type="button" className="button button-quiet" aria-label={`Download edition ${hash.slice(0, 12)}`} onClick={download}>
        Download
      </button>{' '}
      <button type="button" className="button button-quiet" aria-label={`State chart (SCXML) of edition ${hash.slice(0, 12)}`} onClick={chart}>
        State chart (SCXML)
      </button>
      {wrong !== undefined && (
        <span role="alert" className="edition-wrong">
          {wrong}
        </span>
      )}
    </span>
  );
}
