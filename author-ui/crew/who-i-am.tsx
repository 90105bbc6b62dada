import { hubProblemWords, roleWords } from '../../shared/sync/hub-words.ts';
import { mayWords } from './crew-page-words.ts';
import type { JoinedHub } from './desk-hub.tsx';
import { HubTrouble } from './hub-trouble.tsx';
import { SureButton } from './sure-button.tsx';
import { useDeed } from './use-asked.ts';

/** Who this desk is in the crew, and the way out of it. */
export function WhoIAm({ hub }: { readonly hub: JoinedHub }) {
  const { person, device } = hub.me;
  const leaving = useDeed({ isLast: true });
  return (
    <section aria-labelledby="who-i-am-title" className="crew-me">
      <h2 id="who-i-am-title">{person.name}</h2>
      <p>
        <strong>{roleWords(person.role)}</strong>: {mayWords(person.role)}
      </p>
      <p>On this computer, “{device.label}”. </p>
      <SureButton
        text="Leave the crew…"
        ask="This computer forgets the crew. Its trees and benches stay, and what was published stays published. To come back takes a new invitation, or a code from another device of yours."
        sure={leaving.busy ? 'Leaving…' : 'Leave'}
        keep="Stay"
        busy={leaving.busy}
        onSure={async () => {
          const left = await leaving.run(() => hub.client.leave());
          if (left) await hub.again();
          return left !== undefined;
        }}
      />
      {leaving.problem && <HubTrouble {...hubProblemWords(leaving.problem)} />}
    </section>
  );
}
