import { type Prose, type Tree, writeTree } from '../../engine/tree/index.ts';

const said = (text: string): Prose[number][] => [{ type: 'paragraph', children: [{ type: 'text', value: text }] }];

/** A tree to begin with: the complaint tried, nothing wrong, and a handoff. It has no problems; all its words are there to be replaced. */
export function blankTree(name: string, title: string): Tree {
  const common = { while: [], cautions: [], photos: [] };
  return {
    name,
    title,
    complaint: 'What the customer says, or what the tech finds.',
    benches: [],
    facts: {},
    settings: {},
    meter: '1 % + 3 counts',
    recheck: { step: 'try-the-complaint', passes: 'works' },
    opening: {
      prose: said('What this tree covers, and what it leaves to others.'),
      cautions: [
        {
          signal: 'warning',
          about: 'line-voltage',
          prose: said(
            "Line voltage stands behind the panels whenever the unit has power. Work to local code, the maker's instructions and your license.",
          ),
        },
      ],
    },
    steps: [
      {
        kind: 'look',
        id: 'try-the-complaint',
        title: 'Try the complaint',
        minutes: 2,
        ...common,
        at: 'the equipment',
        prose: said('See the complaint for yourself before anything is touched.'),
        ways: [
          { on: 'works', to: { step: 'nothing-wrong-found' } },
          { on: 'does not', to: { step: 'call-the-senior-tech' } },
        ],
      },
      {
        kind: 'finding',
        id: 'nothing-wrong-found',
        title: 'Nothing wrong found',
        minutes: 0,
        ...common,
        faults: [],
        prose: said('It works now. Ask when it was seen not to.'),
        repair: [],
      },
      {
        kind: 'handoff',
        id: 'call-the-senior-tech',
        title: 'Call the senior tech',
        minutes: 0,
        ...common,
        to: 'the senior tech',
        prose: said('Say what you read, and at which points.'),
      },
    ],
  };
}

export const blankTreeText = (name: string, title: string): string => writeTree(blankTree(name, title));
