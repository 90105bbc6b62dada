import { useState } from 'react';
import { useCrew } from '../crew/use-crew.ts';
import { reducedPhoto } from '../device/reduced-photo.ts';
import { Sheet } from '../frame/sheet.tsx';
import { PhotoStrip } from '../report/photo-strip.tsx';
import { newId } from '../walk/new-id.ts';
import { stampNow } from '../walk/stamp.ts';
import { TroubleOfWalk } from '../walk/trouble-of-walk.tsx';
import { useSession } from '../walk/use-session.ts';

const NOT_KEPT = 'This photo was not kept. Take it again.';

/** Takes a photo with the phone's own camera and keeps it with the call. */
export function PhotoSheet({ onClose }: { readonly onClose: () => void }) {
  const { view, walk, send } = useSession();
  const { status } = useCrew();
  const asks = view.step?.photos ?? [];
  const [ask, setAsk] = useState(asks.find((one) => !view.photos.some((photo) => photo.ask === one)) ?? '');
  const [said, setSaid] = useState<string>();
  const [busy, setBusy] = useState(false);
  const keep = async (file: File): Promise<string> => {
    const picture = await reducedPhoto(file);
    if (!picture.ok) return picture.problem;
    const id = newId('photo');
    const photo = { id, walk: walk.id, taken: stampNow().time, picture: picture.value };
    return (await send({ type: 'photographed', photo: id, ...(ask !== '' && { ask }) }, photo)) ? 'Kept with the call.' : NOT_KEPT;
  };
  const take = async (file: File): Promise<void> => {
    // From the choice until the photo is on the disk: a second one would stand in its way.
    setBusy(true);
    setSaid('Making it smaller…');
    setSaid(await keep(file).catch(() => NOT_KEPT));
    setBusy(false);
  };
  return (
    <Sheet title="Photo" onClose={onClose}>
      {asks.length > 0 && (
        <label className="field">
          <span>Of what</span>
          <select value={ask} onChange={(event) => setAsk(event.target.value)}>
            {asks.map((one) => (
              <option key={one}>{one}</option>
            ))}
            <option value="">Something else</option>
          </select>
        </label>
      )}
      <label className="button button-main button-wide file-button" aria-disabled={busy}>
        Take a photo
        <input
          type="file"
          accept="image/*"
          capture="environment"
          disabled={busy}
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            if (file) void take(file);
            event.target.value = '';
          }}
        />
      </label>
      <p className="section-note" role="status">
        {said ??
          (status === 'joined'
            ? 'Photos are kept with the call, go to the crew’s hub and stand in the report. Show no people.'
            : 'Photos stay on this device with the call and stand in its report. Show no people.')}
      </p>
      <TroubleOfWalk />
      <PhotoStrip photos={view.photos} />
    </Sheet>
  );
}
