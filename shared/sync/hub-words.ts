import type { SyncProblem } from './crew-sync.ts';
import type { EditionNotice } from './edition-notices.ts';
import type { PublishProblem } from './hub-client.ts';
import type { Role } from './wire/role.ts';
import type { WalkFlag } from './wire/walk-wire.ts';

/** Three sentences of every message about the hub: what happened, what is safe, what to do. */
export type HubWords = { readonly happened: string; readonly safe: string; readonly todo: string };

const HERE = 'Everything entered is safe on this device.';
const UNCHANGED = 'Nothing was changed.';

const say = (happened: string, todo: string, safe = UNCHANGED): HubWords => ({ happened, safe, todo });

export function hubProblemWords(problem: SyncProblem | PublishProblem): HubWords {
  switch (problem.code) {
    case 'no-signal':
      return say('The hub cannot be reached.', 'Go on working. It is tried again by itself when there is a signal.', HERE);
    case 'too-slow':
      return say('The hub did not answer in time.', 'Go on working. It is tried again by itself.', HERE);
    case 'answer-not-understood':
      return say(
        'Something answered that is not the hub.',
        'If this network asks for a sign-in, open any web page and sign in. Otherwise tell who runs the hub.',
        HERE,
      );
    case 'storage-failed':
      return say(
        `This device could not read or write its storage (${problem.detail || 'no reason given'}).`,
        'Free some space, close the app and open it again.',
        'What the hub has is safe there; what was shown as entered is on this device.',
      );
    case 'not-joined':
      return say('This device is not in the crew.', 'Ask the owner for an invitation, and open its link here.', HERE);
    case 'device-stopped':
      return say('This device was taken out of the crew.', 'Ask the owner for a new invitation. What has not been sent is sent once you join.', HERE);
    case 'person-stopped':
      return say('You were taken out of the crew.', 'If that is a mistake, ask the owner. What has not been sent stays on this device.', HERE);
    case 'not-allowed':
      return say('Your role may not do this.', 'Ask the owner to do it, or to change your role.');
    case 'other-origin':
      return say('The request did not come from the hub’s own page.', 'Open the desk at the hub’s address and do it there.');
    case 'needs-https':
      return say('Joining over this address would show the token to the network.', 'Open the hub at its https address and join there.');
    case 'code-not-good':
      return say('The code does not hold: mistyped, used already, stopped or out of date.', 'Check it, or ask for a new invitation.');
    case 'name-missing':
      return say('The crew needs a name to know you by.', 'Enter your name and join again.');
    case 'not-there':
      return say('The hub has nothing by that name.', 'Load the list again.');
    case 'no-hub':
      return say('There is no hub at this address.', 'Everything works without one on this device. To share, start the hub and join it.', HERE);
    case 'not-taken-here':
      return say('The hub takes nothing at this address.', 'Load the app again so that its newest version runs.', HERE);
    case 'head-moved':
    case 'overtaken':
      return say(
        'Someone published this tree after you began.',
        'Look at both. Take over what you need of theirs, then publish yours after theirs.',
        'Yours is here as you left it, and theirs is published. Neither was changed.',
      );
    case 'base-unknown':
      return say('The hub does not know the edition that yours was made from.', 'Load the list again and publish after the current edition.');
    case 'edition-withdrawn':
      return say('This very edition was withdrawn.', 'Change what it was withdrawn for, then publish.');
    case 'not-an-edition':
      return say('The hub cannot read this edition.', 'Check the tree, put right what is named there, and publish again.');
    case 'not-its-hash':
      return say('What arrived is not what its hash names.', 'Try again. If it stays, load the app again.');
    case 'last-owner':
      return say('The crew would have no owner left.', 'Make someone else an owner first.');
    case 'photo-differs':
      return say('The hub has another picture under this photo’s name.', 'Take the photo again.', HERE);
    case 'not-a-photo':
      return say('The file is not a JPEG, PNG or WebP picture.', 'Take the photo again.', HERE);
    case 'too-many-photos':
      return say('This walk has as many photos as the hub keeps for one.', 'The photo stays on this device.', HERE);
    case 'edition-unknown':
      return say('The hub does not have the edition that this drill is on.', 'Publish the tree first, then give the drill on what was published.');
    case 'drill-not-good':
      return say('The drill cannot be done as it is set.', 'Check its bench, its fault and its facts, and give it again.');
    case 'person-unknown':
      return say('Someone the drill is for is not in the crew.', 'Load the list of people again and choose from it.');
    case 'run-differs':
      return say('The hub has another drill under this one’s name.', 'The result stays on this device. Do the drill again to send one.', HERE);
    case 'too-many-entries':
      return say('The hub has as many of these as it keeps.', 'What is there stays as it is.');
    case 'too-large':
      return say('It is larger than the hub takes.', 'Make it smaller: photos up to 8 MB, editions up to 4 MB.', HERE);
    case 'wrong-type':
      return say('The hub does not take this kind of file.', 'Load the app again so that its newest version runs.', HERE);
    case 'not-understood':
      return say('The hub did not understand what was sent.', 'Load the app again so that its newest version runs.', HERE);
    case 'slow-down':
      return say('The hub was asked too often.', 'Wait a minute. It is tried again by itself.', HERE);
    case 'hub-busy':
      return say('The hub is busy.', 'It is tried again by itself.', HERE);
    case 'hub-troubled':
      return say('The hub has a trouble of its own.', 'It is tried again by itself. Tell who runs the hub if it stays.', HERE);
  }
}

export function noticeWords(notice: EditionNotice): HubWords {
  if (notice.code === 'edition-withdrawn')
    return say(
      `${notice.byName} took this edition back: ${notice.why}`,
      'Read why before you go on. You can close this call as it is and open a new one on the current edition.',
      'This call stays as it is.',
    );
  return say(
    `There is a newer edition of this tree${notice.byName === undefined ? '' : `, by ${notice.byName}`}${notice.why === undefined ? '' : `: ${notice.why}`}`,
    'The next call opens on the newer one.',
    'This call stays on the edition it was opened on.',
  );
}

const FLAGS: Readonly<Record<WalkFlag, string>> = {
  'unknown-edition': 'Its edition is not on the hub, so it cannot be replayed here.',
  forked: 'The log was carried on in two places. Both are kept.',
  gap: 'Lines in the middle have not arrived yet.',
  'cut-off': 'The phone has told of more lines than have arrived.',
  shrunk: 'The phone told of fewer lines than it once had.',
  'several-hands': 'Lines came from devices of more than one person.',
  'does-not-replay': 'The log does not replay on its edition.',
};

export const walkFlagWords = (flag: WalkFlag): string => FLAGS[flag];

const ROLE_WORDS: Readonly<Record<Role, string>> = { tech: 'Tech', 'senior-tech': 'Senior tech', trainer: 'Trainer', owner: 'Owner' };

export const roleWords = (role: Role): string => ROLE_WORDS[role];
