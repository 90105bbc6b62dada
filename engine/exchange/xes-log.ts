import { RITUAL_NAMES } from './exchange-words.ts';
import { type ExportedWalk, type RowPlace, type WalkRow, walkRows } from './walk-rows.ts';
import { type XmlElement, xml, xmlDocument } from './xml-text.ts';

// IEEE 1849-2016, standard extensions: name, prefix and where each is defined.
const EXTENSIONS = [
  ['Concept', 'concept'],
  ['Time', 'time'],
  ['Lifecycle', 'lifecycle'],
  ['Organizational', 'org'],
] as const;

const text = (key: string, value: string | undefined): readonly XmlElement[] => (value === undefined ? [] : [xml('string', { key, value })]);
const date = (key: string, value: string): XmlElement => xml('date', { key, value });
const float = (key: string, value: number | null | undefined): readonly XmlElement[] =>
  value === null || value === undefined ? [] : [xml('float', { key, value })];
const whole = (key: string, value: number): XmlElement => xml('int', { key, value });
const yes = (key: string, value: boolean): XmlElement => xml('boolean', { key, value: String(value) });

/** The standard transactional life cycle, as far as a walk has it. */
type Transition = 'start' | 'complete' | 'suspend' | 'resume' | 'ate_abort';

function event(
  row: WalkRow,
  name: string,
  instance: string,
  transition: Transition,
  by: string | undefined,
  ...more: readonly XmlElement[]
): XmlElement {
  return xml(
    'event',
    {},
    ...text('concept:name', name),
    ...text('concept:instance', instance),
    date('time:timestamp', row.line.time),
    ...text('lifecycle:transition', transition),
    ...text('org:resource', by ?? ''),
    whole('ohmward:seq', row.line.seq),
    ...text('ohmward:event', row.line.event.type),
    ...more,
  );
}

const placed = (place: RowPlace): readonly XmlElement[] => [
  ...text('ohmward:tree', place.tree),
  ...text('ohmward:step', place.step),
  ...text('ohmward:kind', place.kind),
];

function answer({ on, typed, judged }: WalkRow): readonly XmlElement[] {
  return [
    ...text('ohmward:on', on),
    ...text('ohmward:typed', typed),
    ...(judged?.si === 'open' ? text('ohmward:value', 'open') : float('ohmward:si', judged?.si)),
    ...text('ohmward:unit', judged?.unit),
    ...float('ohmward:margin', judged?.margin),
    ...(judged ? [yes('ohmward:too-close', judged.reaches.length > 0)] : []),
  ];
}

/** The events of one line: a step left is complete, the one come to starts; what is done around the steps is complete at once. */
function eventsOf(row: WalkRow, stay: number, by: string | undefined): readonly XmlElement[] {
  const { place, next, moved, line } = row;
  const { type } = line.event;
  const made: XmlElement[] = [];
  if ((type === 'paused' || type === 'resumed') && place)
    made.push(event(row, place.title, `${stay}`, type === 'paused' ? 'suspend' : 'resume', by, ...placed(place)));
  if (moved && place && type !== 'rechecked')
    made.push(event(row, place.title, `${stay}`, type === 'could-not' ? 'ate_abort' : 'complete', by, ...placed(place), ...answer(row)));
  const ritual = RITUAL_NAMES[type];
  if (ritual !== undefined) made.push(event(row, ritual, `seq ${line.seq}`, 'complete', by, ...answer(row)));
  // A finding that is accepted is left for the closing ritual, not for another step.
  if (moved && next && !(next.key === place?.key && (next.kind === 'finding' || next.kind === 'handoff')))
    made.push(event(row, next.title, `${stay + 1}`, 'start', by, ...placed(next)));
  return made;
}

function trace(walk: ExportedWalk): XmlElement {
  const { rows, replay, by } = walkRows(walk);
  const { root } = walk.edition.compiled;
  const { outcome, opened } = replay.walk.snapshot.context;
  let stay = 0;
  const events = rows.flatMap((row) => {
    const made = row.trusted ? eventsOf(row, stay, by) : [];
    if (row.moved) stay += 1;
    return made;
  });
  return xml(
    'trace',
    {},
    ...text('concept:name', rows[0]?.line.walk ?? 'empty'),
    ...text('ohmward:tree', root.name),
    ...text('ohmward:title', root.title),
    ...text('ohmward:edition', walk.edition.hash),
    ...text('ohmward:outcome', outcome),
    ...text('ohmward:site', opened.site),
    yes('ohmward:drill', opened.drill === true),
    yes('ohmward:trusted', replay.problems.length === 0),
    ...events,
  );
}

/**
 * Walks as an event log (XES, IEEE 1849-2016): a trace a walk, a start and a complete event for each stay at a step, and one for each part of the
 * closing ritual. Lines that cannot be trusted are left out, and their trace says that it is not whole.
 */
export function xesLog(walks: readonly ExportedWalk[]): string {
  return xmlDocument(
    xml(
      'log',
      { xmlns: 'http://www.xes-standard.org/', 'xes.version': '1849-2016', 'xes.features': '' },
      ...EXTENSIONS.map(([name, prefix]) => xml('extension', { name, prefix, uri: `http://www.xes-standard.org/${prefix}.xesext` })),
      xml('global', { scope: 'trace' }, ...text('concept:name', 'walk'), ...text('ohmward:edition', '')),
      xml(
        'global',
        { scope: 'event' },
        ...text('concept:name', 'step'),
        ...text('concept:instance', '0'),
        date('time:timestamp', '1970-01-01T00:00:00.000+00:00'),
        ...text('lifecycle:transition', 'complete'),
        ...text('org:resource', ''),
      ),
      xml('classifier', { name: 'Step', scope: 'event', keys: 'concept:name' }),
      xml('classifier', { name: 'Step and transition', scope: 'event', keys: 'concept:name lifecycle:transition' }),
      xml('classifier', { name: 'Tech', scope: 'event', keys: 'org:resource' }),
      ...text('concept:name', 'Ohmward walks'),
      ...text('lifecycle:model', 'standard'),
      ...walks.map(trace),
    ),
  );
}
