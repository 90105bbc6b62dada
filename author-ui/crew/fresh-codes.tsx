import { useEffect, useId, useRef, useState } from 'react';
import type { FreshCode } from '../../shared/sync/wire/crew-wire.ts';
import { isOwnMachine } from './crew-page-words.ts';

type FreshCodesProps = {
  readonly codes: readonly FreshCode[];
  readonly title: string;
  /** What the codes are good for and until when. */
  readonly about: string;
  readonly onClose: () => void;
};

/** Codes that were just made, told this once: a picture to point a phone at, links to send, and paper for those who have neither at hand. */
export function FreshCodes({ codes, title, about, onClose }: FreshCodesProps) {
  const heading = useRef<HTMLHeadingElement>(null);
  const id = useId();
  useEffect(() => heading.current?.focus(), []);
  return (
    <section className="fresh-codes" aria-labelledby={id}>
      <h3 id={id} ref={heading} tabIndex={-1}>
        {title}
      </h3>
      <p>
        {about} {codes.length === 1 ? 'It is' : 'They are'} shown this once: send or print {codes.length === 1 ? 'it' : 'them'} before you close this.
      </p>
      {codes[0] && isOwnMachine(codes[0].link) && (
        <p className="crew-hint">
          These links open on this computer only. For phones and other computers, start the service with its address on your network:{' '}
          <code>npm start -- --host 0.0.0.0 --address https://hub.example</code>; the README says what stands in front of it.
        </p>
      )}
      <ul>
        {codes.map((code, index) => (
          <FreshCodeCard key={code.id} code={code} about={about} number={codes.length === 1 ? undefined : index + 1} />
        ))}
      </ul>
      <p className="crew-buttons">
        <button type="button" className="button" onClick={() => window.print()}>
          Print
        </button>{' '}
        <button type="button" className="button button-quiet" onClick={onClose}>
          Close
        </button>
      </p>
    </section>
  );
}

type FreshCodeCardProps = { readonly code: FreshCode; readonly about: string; readonly number: number | undefined };

function FreshCodeCard({ code: { code, link, deskLink, qr }, about, number }: FreshCodeCardProps) {
  const [copied, setCopied] = useState<string>();
  const copy = (what: string, text: string): void => {
    const done = navigator.clipboard?.writeText(text) ?? Promise.reject(new Error('no clipboard'));
    done.then(
      () => setCopied(`${what} copied.`),
      () => setCopied('The browser did not let it be copied. Mark the link and copy it by hand.'),
    );
  };
  const of = number === undefined ? '' : ` of code ${number}`;
  return (
    <li className="fresh-code">
      <img src={`data:image/svg+xml,${encodeURIComponent(qr)}`} alt={`QR code that opens the phone’s link${of}`} width="168" height="168" />
      <div>
        <p className="fresh-code-text">{code}</p>
        <p className="fresh-code-paper">Ohmward. {about}</p>
        <dl>
          <dt>Phone</dt>
          <dd>
            <code>{link}</code>{' '}
            <button type="button" className="button-plain" aria-label={`Copy the phone’s link${of}`} onClick={() => copy('The phone’s link', link)}>
              Copy
            </button>
          </dd>
          <dt>Desk</dt>
          <dd>
            <code>{deskLink}</code>{' '}
            <button type="button" className="button-plain" aria-label={`Copy the desk’s link${of}`} onClick={() => copy('The desk’s link', deskLink)}>
              Copy
            </button>
          </dd>
        </dl>
        <p role="status" className="crew-told">
          {copied}
        </p>
      </div>
    </li>
  );
}
