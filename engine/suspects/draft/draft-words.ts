import { QUANTITY_KINDS, type QuantityKindName } from '../../quantity/index.ts';
import { type Action, type Caution, type CautionSubject, type Prose, type Signal, showAction } from '../../tree/index.ts';
import type { Probe } from '../observe/probe.ts';
import type { DraftProblem } from './draft-problem.ts';

// Every sentence that a draft is written with. A senior tech puts the crew's own words in their place.

type Piece = string | { readonly bold: string };

/** A paragraph; bold pieces stand out. */
export const paragraph = (...pieces: readonly Piece[]): Prose[number] => ({
  type: 'paragraph',
  children: pieces.map((piece) =>
    typeof piece === 'string'
      ? { type: 'text' as const, value: piece }
      : { type: 'strong' as const, children: [{ type: 'text' as const, value: piece.bold }] },
  ),
});

export const inWords = (name: string): string => name.replaceAll('-', ' ');

export const asTitle = (name: string): string => {
  const words = inWords(name);
  return words.charAt(0).toUpperCase() + words.slice(1);
};

export const listed = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} or ${names[names.length - 1] ?? ''}`;

export const SEEN = 'yes';
export const NOT_SEEN = 'no';

const TAKEN: Readonly<Partial<Record<string, string>>> = {
  'ac-voltage': 'Volts',
  'dc-voltage': 'DC volts',
  resistance: 'Ohms',
  'ac-current': 'Amps',
  'dc-current': 'DC amps',
};

export function probeTitle(probe: Probe): string {
  if (probe.kind === 'look') return asTitle(probe.sign);
  const taken = TAKEN[probe.takes] ?? QUANTITY_KINDS[probe.takes].label;
  return probe.across ? `${taken} from ${probe.across[0]} to ${probe.across[1]}` : `${taken} at the ${inWords(probe.at ?? '')}`;
}

/** How an instrument comes to where it reads. Common practice. */
const CONNECTING: Readonly<Partial<Record<QuantityKindName, string>>> = {
  'dc-current': 'Power off while the meter goes into the wire, and again while it comes out.',
  'ac-current': 'The clamp goes round one conductor alone.',
  pressure:
    'Connect it and take it off with the equipment off, by the maker’s instructions. A gas tapping is for those whom local code licenses, and is tested for leaks after.',
};

export function probeProse(probe: Probe, suspects: readonly string[], isLive: boolean): Prose {
  const left = suspects.length > 6 ? [] : [paragraph(`Still possible here: ${listed(suspects)}.`)];
  if (probe.kind === 'look')
    return [paragraph({ bold: asTitle(probe.sign) }, ': yes or no? Go by what you see, hear or feel now, not by what it should be.'), ...left];
  const { meter } = QUANTITY_KINDS[probe.takes];
  if (!probe.across) {
    const how = CONNECTING[probe.takes];
    return [paragraph(`${meter}, at the `, { bold: inWords(probe.at ?? '') }, `.${how === undefined ? '' : ` ${how}`}`), ...left];
  }
  const input =
    probe.input === 'low' ? ' Use the low-impedance input: a wire that is broken can show a ghost of the volts beside it on an ordinary one.' : '';
  const dead = isLive ? '' : ' Power is off and these points were proved dead.';
  return [paragraph(`${meter}. Red lead on `, { bold: probe.across[0] }, ', black on ', { bold: probe.across[1] }, `.${dead}${input}`), ...left];
}

export const deadTitle = ([a, b]: readonly [string, string]): string => `Dead from ${a} to ${b}`;
export const deadProse = ([a, b]: readonly [string, string]): Prose => [
  paragraph(
    'Volts first: ohms on a live circuit tell nothing and can cost the meter. ',
    { bold: a },
    ' to ',
    { bold: b },
    ' must show next to nothing.',
  ),
];

export const OPENING = (title: string): Prose => [
  paragraph(
    `A first draft for: ${title}. It is worked out from the circuit: which readings, in which order, and what each should show. Put in the crew’s own words, where things are, and what the steps take in your houses.`,
  ),
  paragraph('A reading that no fault of the circuit gives goes to the senior tech: something is there that the bench does not know.'),
];

/** What the tree is for. `sound` is what a sound circuit shows; undefined for a reading. */
export function complaintOf(what: string, sound: boolean | undefined): string {
  if (sound === undefined) return `Not as it should be: ${what}.`;
  return sound ? `It should be so and is not: ${what}.` : `It is so and should not be: ${what}.`;
}

export const HEALTHY = {
  title: 'Nothing wrong found',
  prose: [paragraph('It works now.')],
  repair: [
    paragraph(
      'Replace nothing yet. Something comes and goes: try it several times, look for loose terminals and chafed cable, and tell the customer what was seen.',
    ),
  ],
} as const satisfies { readonly title: string; readonly prose: Prose; readonly repair: Prose };

/** `says`: the order to try the repairs in. */
export const findingProse = (says: readonly string[]): Prose =>
  says.length === 1
    ? [paragraph(says[0] ?? '')]
    : [
        paragraph(
          'Every reading and look shows these alike, so it is one of them. Likeliest first; where one repair takes far less than another, weigh that too:',
        ),
        { type: 'list', ordered: true, children: says.map((text) => ({ type: 'listItem', children: [paragraph(text)] })) },
      ];

/** `isWired`: the part itself carries current. What does not may still sit beside what does. */
export const repairProse = (parts: readonly string[], isWired: boolean): Prose => [
  paragraph(
    `${isWired ? 'Power off and proved dead before a hand goes in.' : 'Power off and proved dead first, where wiring or moving parts are near.'} Put right: `,
    { bold: listed(parts.map(inWords)) },
    '. Go by the maker’s instructions and local code; what your license does not cover is for someone it does.',
  ),
  paragraph('Then put back all that was changed, and try the complaint again.'),
];

export const CALL_SENIOR = {
  title: 'Call the senior tech',
  to: 'the senior tech',
  prose: [
    paragraph(
      'What was found does not fit any fault that the bench knows, or a step could not be done. Put back what you changed, write down the readings, and call before you change a part.',
    ),
  ],
} as const satisfies { readonly title: string; readonly to: string; readonly prose: Prose };

export const CALL_ELECTRICIAN = {
  title: 'Call a licensed electrician',
  to: 'a licensed electrician',
  prose: [paragraph('Line voltage is not yours to work on here, or is not what it should be. Say which points were read, and what they showed.')],
} as const satisfies { readonly title: string; readonly to: string; readonly prose: Prose };

export const STILL_LIVE = {
  title: 'Still live with the power off',
  to: 'a licensed electrician',
  prose: [
    paragraph('Volts are there that should be gone. Hands and leads off. Say which switch was turned, which points were read, and what they showed.'),
  ],
} as const satisfies { readonly title: string; readonly to: string; readonly prose: Prose };

const caution = (signal: Signal, about: CautionSubject, ...text: readonly string[]): Caution => ({
  signal,
  about,
  prose: text.map((each) => paragraph(each)),
});

export const LINE_OPENING = caution(
  'warning',
  'line-voltage',
  'Line voltage stands behind these covers and can kill. Meter and leads of the right measurement category, dry hands, no jewelry. Power off before a hand or a tool goes in. Work to local code, the maker’s instructions and what your license covers.',
);

export const CONTROL_OPENING = caution(
  'notice',
  'control-circuit',
  'A probe that slips from a hot terminal to common or to bare metal blows the fuse or the transformer, and then you are on a different fault.',
);

export const LINE_STEP = caution(
  'warning',
  'line-voltage',
  'Line voltage can stand on these points. Insulated probe tips, one hand. If it is not yours to do, answer cannot.',
);

export const DEAD_STEP = caution('warning', 'line-voltage', 'Treat it as live until the meter has said dead and has been proved again.');

/** Cautions for what a circuit's own words speak of. */
export const SPOKEN_OF: readonly { readonly words: RegExp; readonly caution: Caution }[] = [
  {
    words: /\bgas\b|\bburner\b|\bflame\b/,
    caution: caution(
      'warning',
      'gas',
      'Gas burns and explodes. If you smell it: no switches, no flame, everyone out, call the gas supplier from outside. Opening gas piping, setting or changing a gas valve is for those whom local code licenses.',
    ),
  },
  {
    words: /\bvent\b|\bflue\b|\bflame\b/,
    caution: caution(
      'warning',
      'combustion-products',
      'A heater that does not vent fills a house with carbon monoxide, which has no smell. Wear a CO monitor.',
    ),
  },
  {
    words: /\bigniter\b|\bburner\b|\bflame\b|\bheat call\b/,
    caution: caution('caution', 'hot-surface', 'Burner, igniter and flue burn skin long after the flame is out.'),
  },
  {
    words: /\binducer\b|\bblower\b|\bfan\b|\bcompressor\b|\bcondenser\b/,
    caution: caution('caution', 'moving-parts', 'A fan or motor may start at any moment. Hands and sleeves away.'),
  },
  {
    words: /\bwater\b|\bdrain\b|\bpan\b|\bcondensate\b/,
    caution: caution('caution', 'water', 'Water on a floor is slippery and conducts. Wipe up before you kneel beside a panel.'),
  },
];

const turning = ({ setting, state }: Extract<Action, { do: 'turn' }>): string =>
  state === 'on' || state === 'off' ? `Turn ${inWords(setting)} ${state}` : `Set ${inWords(setting)} to ${inWords(state)}`;

const theLead = (lead: string): string => (/\b(lead|wire)\b/.test(lead) ? lead : `the lead ${lead}`);

/** What an act is called by: what it changes first, or that the meter is proved. */
export function actTitle(does: readonly Action[]): string {
  const main = does.find((action) => action.do !== 'prove-meter') ?? does[0];
  if (!main) return 'Do this';
  if (main.do === 'turn') return turning(main);
  if (main.do === 'lift') return `Lift ${theLead(main.lead)}`;
  if (main.do === 'land') return `Land ${theLead(main.lead)}`;
  return asTitle(showAction(main));
}

export const actProse = (does: readonly Action[], isolating: readonly string[]): Prose => [
  paragraph(does.map((action) => actSentence(action, isolating)).join(' ')),
];

function actSentence(action: Action, isolating: readonly string[]): string {
  switch (action.do) {
    case 'turn':
      return isolating.includes(action.setting)
        ? `${turning(action)}, and see that nobody turns it back while you work.`
        : `${turning(action)}, and give it time to settle.`;
    case 'prove-meter':
      return 'Prove the meter on something known to be live, so that a zero means dead and not a broken lead.';
    case 'lift':
      return `Lift ${theLead(action.lead)}, so that you read the part and not what lies beside it.`;
    case 'land':
      return `Land ${theLead(action.lead)} again, tight.`;
    case 'jumper':
      return `A short jumper with insulated clips, ${action.from} to ${action.to} and nowhere else. It is on the put-back list until it is off.`;
    case 'remove-jumper':
      return `Take the jumper off ${action.from} and ${action.to}.`;
  }
}

/** Why there is no draft, and the way out. */
export function draftProblemWords({ code }: DraftProblem): { readonly message: string; readonly fix: string } {
  switch (code) {
    case 'no-faults':
      return { message: 'This bench has no faults, so there is nothing to find.', fix: 'Add the ways that its parts can break under `faults`.' };
    case 'nothing-tells':
      return {
        message: 'No look and no reading as the circuit is found tells a fault of this bench from a sound circuit.',
        fix: 'Add the sign that the complaint is about, or a terminal where its volts can be read.',
      };
  }
}

/** Faults in plain words make better titles than their names, where they are short enough. */
export function findingTitle(faults: readonly string[], says: (fault: string) => string | undefined): string {
  const [only] = faults;
  const plain = only === undefined || faults.length > 1 ? undefined : says(only)?.replace(/\.\s*$/, '');
  return plain !== undefined && plain.length <= LONGEST_TITLE && !/[.:;`*_[\]<>{}]/.test(plain) ? plain : asTitle(faults.join(' or '));
}

const LONGEST_TITLE = 60;
