import { type Action, type Caution, isChoice, jumperKey, type Prose, waysOf } from '../tree/index.ts';
import { type CompiledStep, factValue, type WalkableEdition } from '../walk/index.ts';
import { gaugeConditions, gaugeNumbers, quoted } from './chart-condition.ts';
import { backEvent, CHART_EVENTS, CHART_NAMESPACE, CHART_STATES, jumpEvent, stateOf, toldEvent, treeState, wayEvents } from './chart-names.ts';
import { chartWords } from './exchange-words.ts';
import { proseText } from './prose-text.ts';
import { type XmlElement, xml, xmlDocument } from './xml-text.ts';

type Chart = WalkableEdition['compiled'];

const transition = (event: string | undefined, target: string | undefined, cond?: string, script?: string): XmlElement =>
  xml('transition', { event, cond, target }, ...(script === undefined ? [] : [xml('script', {}, script)]));

const both = (...conditions: readonly (string | undefined)[]): string | undefined => {
  const wanted = conditions.filter((condition) => condition !== undefined && condition !== '');
  return wanted.length === 0 ? undefined : wanted.map((condition) => `(${condition})`).join(' && ');
};

/** The settings that a step wants. */
const holdsOf = ({ step }: CompiledStep): string | undefined =>
  both(...step.while.map(({ setting, state }) => `settings[${quoted(setting)}] === ${quoted(state)}`));

/** The statement for one action on the circuit. */
function statement(action: Action): string {
  switch (action.do) {
    case 'turn':
      return `settings[${quoted(action.setting)}] = ${quoted(action.state)};`;
    case 'jumper':
      return `inPlace[${quoted(`jumper ${jumperKey(action.from, action.to)}`)}] = true;`;
    case 'remove-jumper':
      return `delete inPlace[${quoted(`jumper ${jumperKey(action.from, action.to)}`)}];`;
    case 'lift':
      return `inPlace[${quoted(`lead ${action.lead}`)}] = true;`;
    case 'land':
      return `delete inPlace[${quoted(`lead ${action.lead}`)}];`;
    case 'prove-meter':
      return '';
  }
}

const KEEP_SETTINGS =
  'Object.keys(settings).forEach(function (name) { if (settings[name] === asFound[name]) delete inPlace["setting " + name]; else inPlace["setting " + name] = true; });';
const PUT_BACK =
  'if (String(_event.data.item).indexOf("setting ") === 0) { var name = _event.data.item.slice(8); settings[name] = asFound[name]; } delete inPlace[_event.data.item];';
const LEARN_NUMBERS =
  'if (_event.data.numbers) Object.keys(_event.data.numbers).forEach(function (name) { numbers[name] = _event.data.numbers[name]; });';
const tell = (fact: string): string => `facts[${quoted(fact)}] = _event.data.value; ${LEARN_NUMBERS}`;
const TURN_OWN = '_event.data && Object.prototype.hasOwnProperty.call(settings, _event.data.setting)';
const TURN = `settings[_event.data.setting] = _event.data.state; ${KEEP_SETTINGS}`;

/** One change that puts right what a step wants and does not have. */
const setUps = ({ step }: CompiledStep): readonly XmlElement[] =>
  step.while.map((hold) =>
    transition(
      CHART_EVENTS.turn,
      undefined,
      `_event.data.setting === ${quoted(hold.setting)} && _event.data.state === ${quoted(hold.state)} && settings[${quoted(hold.setting)}] !== ${quoted(hold.state)}`,
      TURN,
    ),
  );

/** The ways on of a step that is answered, each as `go` makes a transition of its event and condition. */
function answered(
  chart: Chart,
  compiled: CompiledStep,
  go: (on: string, event: string, condition: string | undefined, script?: string) => XmlElement,
): readonly XmlElement[] {
  const { step, gauge } = compiled;
  const holds = holdsOf(compiled);
  const names = wayEvents(compiled);
  const byName = [...names].map(([on, event]) => go(on, event, holds));
  if (step.kind === 'reading' && gauge) {
    const script = step.sets === undefined ? undefined : `if (typeof _event.data.value === "number") { ${tell(step.sets)} }`;
    return [...gaugeConditions(gauge).map(({ on, condition }) => go(on, CHART_EVENTS.reading, both(holds, condition), script)), ...byName];
  }
  if (step.kind === 'look') return byName;
  if (step.kind !== 'ask') return [];
  const event = toldEvent(step.fact);
  const spec = chart.facts.get(step.fact)?.spec;
  const script = tell(step.fact);
  if (compiled.leadsTo.has('known')) {
    const isOne =
      spec && isChoice(spec) ? `${JSON.stringify(spec.choices)}.indexOf(_event.data.value) >= 0` : 'typeof _event.data.value === "number"';
    return [go('known', event, both(holds, isOne), script)];
  }
  if (gauge) return gaugeConditions(gauge).map(({ on, condition }) => go(on, event, both(holds, condition), script));
  return [...compiled.leadsTo.keys()].map((on) => go(on, event, both(holds, `_event.data.value === ${quoted(on)}`), script));
}

function stepState(chart: Chart, compiled: CompiledStep): XmlElement {
  const { step, leadsTo, cannot } = compiled;
  const target = (on: string): string => stateOf(leadsTo.get(on) ?? compiled.key);
  const metadata = { id: stateOf(compiled.key), 'ohmward:title': step.title, 'ohmward:kind': step.kind, 'ohmward:minutes': step.minutes };
  const onCannot = cannot === undefined ? [] : [transition(CHART_EVENTS.cannot, stateOf(cannot))];
  const work: XmlElement[] = [];
  switch (step.kind) {
    case 'finding':
      work.push(
        transition(
          CHART_EVENTS.found,
          step.faults.length === 0 ? CHART_STATES.putBack : CHART_STATES.repair,
          undefined,
          `recheckWanted = ${chart.recheck !== undefined}; namesFault = ${step.faults.length > 0};`,
        ),
      );
      break;
    case 'handoff':
      work.push(transition(CHART_EVENTS.handedOff, CHART_STATES.putBack, undefined, 'recheckWanted = false;'));
      break;
    case 'act':
      work.push(
        transition(
          CHART_EVENTS.did,
          target('done'),
          holdsOf(compiled),
          [...step.does.map(statement).filter((text) => text !== ''), KEEP_SETTINGS].join(' '),
        ),
        ...onCannot,
      );
      break;
    default:
      work.push(...answered(chart, compiled, (on, event, condition, script) => transition(event, target(on), condition, script)), ...onCannot);
  }
  return xml('state', metadata, ...step.cautions.map(cautionElement), ...bandElements(compiled), ...work, ...setUps(compiled));
}

const cautionElement = ({ signal, about, prose }: Caution): XmlElement => xml('ohmward:caution', { signal, about }, plain(prose));
const plain = (prose: Prose): string => proseText(prose);

const bandElements = (compiled: CompiledStep): readonly XmlElement[] => {
  const names = compiled.step.kind === 'act' ? new Map<string, string>() : wayEvents(compiled);
  return waysOf(compiled.step).map(({ on }) => xml('ohmward:way', { on, event: names.get(on) }));
};

function closing(chart: Chart, walkBack: readonly XmlElement[]): XmlElement {
  const { repair, putBack, recheck, ready, closed } = CHART_STATES;
  const nothing = 'Object.keys(inPlace).length === 0';
  const step = chart.recheck && chart.steps.get(chart.recheck.key);
  const tried = step
    ? answered(chart, step, (on, event, condition) =>
        on === chart.recheck?.passes
          ? transition(event, ready, condition)
          : // What was tried again goes back to the start only where the finding named a fault that can be excluded now.
            transition(event, stateOf(chart.start), both(condition, 'namesFault')),
      )
    : [];
  const ended = step
    ? answered(chart, step, (on, event, condition) =>
        transition(event, ready, both(condition, on === chart.recheck?.passes ? 'false' : '!namesFault')),
      )
    : [];
  const turned = transition(CHART_EVENTS.turn, undefined, TURN_OWN, TURN);
  return xml(
    'state',
    { id: CHART_STATES.closing, initial: repair },
    xml(
      'state',
      { id: repair },
      transition(CHART_EVENTS.repaired, putBack),
      transition(CHART_EVENTS.notRepaired, putBack, undefined, 'recheckWanted = false;'),
      turned,
      ...walkBack,
    ),
    xml('state', { id: putBack }, transition(undefined, recheck, both(nothing, 'recheckWanted')), transition(undefined, ready, nothing), turned),
    xml('state', { id: recheck }, ...tried, ...ended, ...(step ? setUps(step) : [])),
    xml('state', { id: ready }, transition(CHART_EVENTS.closed, closed, nothing)),
    transition(CHART_EVENTS.putBack, undefined, '_event.data && inPlace[_event.data.item] === true', PUT_BACK),
  );
}

/** What the trade's functions in the edition's bands give at these facts: sent as `numbers` with a `told` event, where a fact changes them. */
export function chartNumbers({ compiled }: WalkableEdition, value: (name: string) => number | undefined): Readonly<Record<string, number | null>> {
  return Object.assign({}, ...[...compiled.steps.values()].map(({ gauge }) => (gauge ? gaugeNumbers(gauge, value) : {})));
}

/**
 * An edition as a state chart (W3C SCXML, 2015) that any interpreter with the ECMAScript data model runs: a state a step, grouped by tree, and the
 * closing ritual. Readings come as `reading.value` in SI with the bands' numbers in the conditions, or as the event of a band. What a chart does not
 * hold: that cautions are read, and the safety rules of the circuit; it says so in itself.
 */
export function scxmlChart(edition: WalkableEdition): string {
  const { compiled: chart, hash } = edition;
  const usual = Object.fromEntries([...chart.facts].map(([name, fact]) => [name, isChoice(fact.spec) ? fact.spec.usual : fact.usual]));
  const data: readonly (readonly [string, unknown])[] = [
    ['facts', usual],
    ['numbers', chartNumbers(edition, (name) => factValue(chart.facts, {}, name))],
    ['settings', chart.asFound],
    ['asFound', chart.asFound],
    ['inPlace', {}],
    ['recheckWanted', false],
    ['namesFault', false],
  ];
  const keys = [...chart.steps.keys()];
  const steppedBack = keys.map((key) => transition(backEvent(key), stateOf(key)));
  const told = [...chart.facts.keys()].map((fact) => transition(toldEvent(fact), undefined, undefined, tell(fact)));
  const trees = Object.values(chart.edition.trees).map((tree) =>
    xml(
      'state',
      { id: treeState(tree.name), 'ohmward:title': tree.title, 'ohmward:complaint': tree.complaint },
      ...tree.steps.flatMap(({ id }) => chart.steps.get(`${tree.name}/${id}`) ?? []).map((step) => stepState(chart, step)),
    ),
  );
  const root = xml(
    'scxml',
    {
      xmlns: 'http://www.w3.org/2005/07/scxml',
      'xmlns:ohmward': CHART_NAMESPACE,
      version: '1.0',
      datamodel: 'ecmascript',
      // Interpreters name what they make of a chart after it, so that it has to be an identifier too.
      name: `tree_${chart.root.name.replaceAll('-', '_')}`,
      initial: CHART_STATES.opening,
      'ohmward:edition': hash,
      'ohmward:title': chart.root.title,
      'ohmward:limits': chartWords.limits,
    },
    xml('datamodel', {}, ...data.map(([id, value]) => xml('data', { id, expr: expressionOf(value) }))),
    xml(
      'state',
      { id: CHART_STATES.opening },
      ...chart.root.opening.cautions.map(cautionElement),
      transition(CHART_EVENTS.begin, stateOf(chart.start)),
      ...told,
    ),
    xml(
      'state',
      { id: CHART_STATES.walking },
      ...trees,
      ...steppedBack,
      ...keys.map((key) => transition(jumpEvent(key), stateOf(key))),
      ...told,
      transition(CHART_EVENTS.putBack, undefined, '_event.data && inPlace[_event.data.item] === true', PUT_BACK),
    ),
    closing(chart, steppedBack),
    xml('final', { id: CHART_STATES.closed }),
  );
  return xmlDocument(root);
}

/** JSON as an ECMAScript expression; NaN of a fact without a number comes out as null. */
const expressionOf = (value: unknown): string => JSON.stringify(value).replaceAll('\u2028', '\\u2028').replaceAll('\u2029', '\\u2029');
