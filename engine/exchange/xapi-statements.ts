import { v5 } from 'uuid';
import type { WalkEvent } from '../walk/index.ts';
import { xapiWords } from './exchange-words.ts';
import { type ExportedWalk, type RowPlace, type WalkRow, type WalkRows, walkRows } from './walk-rows.ts';

type LanguageMap = Readonly<Record<string, string>>;
type Activity = {
  readonly objectType: 'Activity';
  readonly id: string;
  readonly definition: { readonly name: LanguageMap; readonly type: string };
};

/** One statement of the Experience API (xAPI 1.0.3, IEEE 9274.1.1). */
export type XapiStatement = {
  readonly id: string;
  readonly version: '1.0.0';
  readonly actor: { readonly objectType: 'Agent'; readonly name?: string; readonly account: { readonly homePage: string; readonly name: string } };
  readonly verb: { readonly id: string; readonly display: LanguageMap };
  readonly object: Activity;
  readonly result?: {
    readonly response?: string;
    readonly success?: boolean;
    readonly completion?: boolean;
    readonly duration?: string;
    readonly extensions?: Readonly<Record<string, unknown>>;
  };
  readonly context: {
    readonly registration: string;
    readonly platform: 'Ohmward';
    readonly language: 'en';
    readonly contextActivities: { readonly parent: readonly Activity[] };
    readonly extensions: Readonly<Record<string, unknown>>;
  };
  readonly timestamp: string;
};

// Everything that is named here is named below this, so that the same line always gives the same id.
const NAMESPACE = v5('urn:ohmward:xapi', v5.URL);
const EXTENSION = 'urn:ohmward:xapi:';
// Verbs and kinds of activity: the ADL vocabulary.
const VERB = 'http://adlnet.gov/expapi/verbs/';
const ACTIVITY = 'http://adlnet.gov/expapi/activities/';

const wholeWalk = ({ walk, replay }: WalkRows): Activity => ({
  objectType: 'Activity',
  id: `urn:ohmward:edition:${walk.edition.hash}`,
  definition: {
    name: { en: xapiWords.walk(walk.edition.compiled.root.title) },
    type: `${ACTIVITY}${replay.walk.snapshot.context.opened.drill === true ? 'simulation' : 'performance'}`,
  },
});

const stepActivity = (hash: string, place: RowPlace): Activity => ({
  objectType: 'Activity',
  id: `urn:ohmward:edition:${hash}:${place.key}`,
  definition: { name: { en: place.title }, type: `${ACTIVITY}${place.kind === 'act' || place.kind === 'finding' ? 'interaction' : 'question'}` },
});

const OUTCOMES_WELL: readonly string[] = ['fixed', 'nothing-wrong'];

/** The verb for a line, where it is one that is told outside. */
function verbOf({ line, place, moved, on }: WalkRow, passes: string | undefined): string | undefined {
  const { type } = line.event;
  switch (type) {
    case 'opened':
      return 'initialized';
    case 'found':
      return 'responded';
    case 'rechecked':
      return on === passes ? 'passed' : 'failed';
    case 'closed':
      return 'completed';
    case 'paused':
      return 'suspended';
    case 'resumed':
      return 'resumed';
    case 'noted':
      return 'commented';
    case 'went-on':
    case 'did':
    case 'could-not':
      return moved && place ? 'answered' : undefined;
    default:
      return undefined;
  }
}

const defined = <T extends object>(value: T): Partial<T> | undefined => (Object.keys(value).length === 0 ? undefined : value);

function resultOf(row: WalkRow, all: WalkRows): XapiStatement['result'] {
  const { on, typed, judged, line } = row;
  const { event } = line;
  const { outcome } = all.replay.walk.snapshot.context;
  if (event.type === 'closed')
    return {
      completion: true,
      ...(outcome !== undefined && { success: OUTCOMES_WELL.includes(outcome), response: outcome }),
      duration: `PT${(Math.round(all.minutes * 6000) / 100).toFixed(2)}S`,
    };
  const extensions = {
    ...(on !== undefined && { [`${EXTENSION}way-on`]: on }),
    ...(judged && {
      [`${EXTENSION}value-si`]: judged.si,
      [`${EXTENSION}unit`]: judged.unit,
      [`${EXTENSION}margin-si`]: judged.margin,
      [`${EXTENSION}too-close-to-call`]: judged.reaches.length > 0,
    }),
  };
  const response = event.type === 'noted' ? event.text : (typed ?? on);
  return defined({
    ...(response !== undefined && { response }),
    ...(event.type === 'rechecked' && { success: on === all.walk.edition.compiled.recheck?.passes }),
    ...(Object.keys(extensions).length > 0 && { extensions }),
  });
}

const aboutStep = (type: WalkEvent['type']): boolean => type !== 'opened' && type !== 'closed' && type !== 'paused' && type !== 'resumed';

function statement(row: WalkRow, all: WalkRows, homePage: string): XapiStatement | undefined {
  const { line, place } = row;
  const { compiled, hash } = all.walk.edition;
  const verb = verbOf(row, compiled.recheck?.passes);
  if (verb === undefined) return undefined;
  const whole = wholeWalk(all);
  const result = resultOf(row, all);
  const name = all.by?.trim() ? all.by : undefined;
  return {
    id: v5(`${line.walk}/${line.seq}/${line.hash}`, NAMESPACE),
    version: '1.0.0',
    actor: { objectType: 'Agent', ...(name !== undefined && { name }), account: { homePage, name: name ?? xapiWords.unnamed } },
    verb: { id: `${VERB}${verb}`, display: { en: verb } },
    object: place && aboutStep(line.event.type) ? stepActivity(hash, place) : whole,
    ...(result && { result }),
    context: {
      registration: v5(line.walk, NAMESPACE),
      platform: 'Ohmward',
      language: 'en',
      contextActivities: { parent: [whole] },
      extensions: { [`${EXTENSION}seq`]: line.seq, [`${EXTENSION}event`]: line.event.type, [`${EXTENSION}line-hash`]: line.hash },
    },
    timestamp: line.time,
  };
}

/** What a learning record store is told of walks. `homePage` names the system that the techs' names are of. Lines that cannot be trusted are left out. */
export function xapiStatements(walks: readonly ExportedWalk[], homePage: string): readonly XapiStatement[] {
  return walks.map(walkRows).flatMap((all) => all.rows.flatMap((row) => (row.trusted ? (statement(row, all, homePage) ?? []) : [])));
}
