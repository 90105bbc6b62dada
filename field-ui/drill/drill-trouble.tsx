import { drillRefusalWords } from '../../engine/review/index.ts';
import { saveFile } from '../device/save-file.ts';
import { TroubleNotice } from '../frame/trouble.tsx';
import { storageWords } from '../storage/storage-words.ts';
import { drillFileName, drillFileText } from './drill-file.ts';
import { useDrill } from './use-drill.ts';

/** Why the last move was not made. */
export function DrillTrouble() {
  const { trouble, forgetTrouble, run } = useDrill();
  if (!trouble) return null;
  if (trouble.kind === 'refused') {
    const { message, fix } = drillRefusalWords(trouble.refusal);
    const unsafe = trouble.refusal.code === 'unsafe';
    return <TroubleNotice happened={unsafe ? `Not safe: ${message}` : message} todo={fix} onDismiss={forgetTrouble} />;
  }
  return (
    <TroubleNotice {...storageWords(trouble.problem)} onDismiss={forgetTrouble}>
      <button
        type="button"
        className="button button-line"
        onClick={() => saveFile(drillFileName(run.record.id), 'application/json', drillFileText(run.record))}
      >
        Save the drill
      </button>
    </TroubleNotice>
  );
}
