import { useEffect, useState } from 'react';
import { useField } from '../frame/field-context.ts';

type Photo = { readonly photo: string; readonly ask?: string };

/** The photos of a call, from this device's storage. */
export function PhotoStrip({ photos }: { readonly photos: readonly Photo[] }) {
  if (photos.length === 0) return null;
  return (
    <ul className="photo-strip">
      {photos.map(({ photo, ask }) => (
        <li key={photo}>
          <StoredPhoto id={photo} words={ask ?? 'Photo of the call'} />
        </li>
      ))}
    </ul>
  );
}

function StoredPhoto({ id, words }: { readonly id: string; readonly words: string }) {
  const { store } = useField();
  const [address, setAddress] = useState<string>();
  useEffect(() => {
    let made: string | undefined;
    let left = false;
    void store.photo(id).then((picture) => {
      if (left) return;
      made = picture && URL.createObjectURL(picture);
      setAddress(made ?? '');
    });
    return () => {
      left = true;
      if (made !== undefined) URL.revokeObjectURL(made);
    };
  }, [store, id]);
  return (
    <figure>
      {address === undefined ? (
        <div className="photo-waiting" />
      ) : address === '' ? (
        <p>Taken on another device; the picture is not here.</p>
      ) : (
        <img src={address} alt={words} />
      )}
      <figcaption>{words}</figcaption>
    </figure>
  );
}
