import { useEffect, useId, useState } from 'react';
import type { WalkSource } from '../source/walk-source.ts';
import type { Frame } from './replay-frame.ts';

export type TakenPhoto = { readonly id: string; readonly ask?: string; readonly at: number };

export const photosOf = (frames: readonly Frame[]): readonly TakenPhoto[] =>
  frames.flatMap(({ event }, at) =>
    event.type === 'photographed' ? [{ id: event.photo, at, ...(event.ask !== undefined && { ask: event.ask }) }] : [],
  );

type WalkPhotosProps = {
  readonly walk: string;
  readonly source: WalkSource;
  readonly photos: readonly TakenPhoto[];
  readonly go: (at: number) => void;
};

/** The photos of a call. A log from a file comes without them. */
export function WalkPhotos({ walk, source, photos, go }: WalkPhotosProps) {
  const title = useId();
  if (photos.length === 0) return null;
  return (
    <section className="walk-photos" aria-labelledby={title}>
      <h2 id={title}>Photos</h2>
      {!source.photo && <p className="walk-hint">A log opened from a file comes without its photos; the lines where they were taken are these.</p>}
      <ul>
        {photos.map((photo) => (
          <li key={photo.id}>
            {source.photo && <PhotoOf walk={walk} load={source.photo} photo={photo} />}
            <button type="button" className="button-plain" onClick={() => go(photo.at)}>
              Line {photo.at + 1}
            </button>{' '}
            {photo.ask ?? ''}
          </li>
        ))}
      </ul>
    </section>
  );
}

type PhotoOfProps = { readonly walk: string; readonly load: NonNullable<WalkSource['photo']>; readonly photo: TakenPhoto };

function PhotoOf({ walk, load, photo: { id, ask } }: PhotoOfProps) {
  const [shown, setShown] = useState<{ readonly address: string } | 'missing'>();
  useEffect(() => {
    let address: string | undefined;
    let left = false;
    void load(walk, id).then((answer) => {
      if (left) return;
      if (!answer.ok) {
        setShown('missing');
        return;
      }
      address = URL.createObjectURL(answer.value);
      setShown({ address });
    });
    return () => {
      left = true;
      if (address !== undefined) URL.revokeObjectURL(address);
    };
  }, [load, walk, id]);
  if (shown === undefined) return <p className="walk-hint">Fetching the photo…</p>;
  if (shown === 'missing') return <p className="walk-hint">This photo has not arrived at the hub.</p>;
  return <img src={shown.address} alt={ask ?? 'Photo taken on the call'} />;
}
