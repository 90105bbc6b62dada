import { useId, useState } from 'react';
import { formulaWords, readBand, readFormula } from '../../../engine/formula/index.ts';
import type { Step, Way } from '../../../engine/tree/index.ts';
import { BAND_FORM_KINDS, type BandForm, type BandFormKind, bandForm, bandText, edgesOf, moveSide } from '../band-form.ts';
import { useEditing } from '../page/edit-context.ts';
import { scaleOf } from './reading-scale.ts';

const KIND_LABELS: Readonly<Record<BandFormKind, string>> = {
  below: 'below',
  range: 'from … to',
  above: 'above',
  within: 'within',
  open: 'open (OL)',
  otherwise: 'otherwise',
};

type BandFieldsProps = {
  readonly step: Step;
  readonly at: number;
  readonly on: string;
  readonly ways: readonly Way[];
  /** Takes the band over; says why not where it cannot be. */
  readonly put: (form: BandForm) => string | undefined;
  /** Takes over all ways, after an edge that two of them share was moved. */
  readonly commit: (ways: readonly Way[]) => void;
};

/** A band as its kind and its edges. An edge that the neighbor shares moves in both. */
export function BandFields({ step, at, on, ways, put, commit }: BandFieldsProps) {
  const id = useId();
  const { facts } = useEditing();
  const known = bandForm(on) ?? { kind: 'below' as const, first: on, second: '' };
  const [draft, setDraft] = useState<BandForm>();
  const [problem, setProblem] = useState<string>();
  const [last, setLast] = useState(on);
  if (last !== on) {
    setLast(on);
    if (draft && bandText(draft) !== on && readsAs(draft) !== on) {
      setDraft(undefined);
      setProblem(undefined);
    }
  }
  const form = draft ?? known;

  function change(next: BandForm): void {
    setDraft(next);
    const band = readBand(bandText(next));
    if (!band.ok) {
      setProblem(formulaWords(band.problem).message);
      return;
    }
    const text = readsAs(next) ?? bandText(next);
    // An edge that was typed over takes the neighbor's along, where the two bands met.
    const isSame = next.kind === known.kind && next.kind !== 'within';
    const typed = isSame && next.first !== known.first ? 'first' : isSame && next.second !== known.second ? 'second' : undefined;
    if (typed && readFormula(next[typed]).ok) {
      const side = typed === 'second' || next.kind === 'below' ? 'high' : 'low';
      const moved = moveSide(ways, at, side, next[typed]);
      if (moved.filter((way, place) => way !== ways[place]).length > 1) {
        setProblem(undefined);
        commit(moved);
        return;
      }
    }
    if (text !== on) setProblem(put({ ...next, ...bandForm(text) }));
    else setProblem(undefined);
  }

  const unit = scaleOf(step, facts)?.unit ?? '';
  const kinds = BAND_FORM_KINDS.map((kind) => (
    <option key={kind} value={kind}>
      {KIND_LABELS[kind]}
    </option>
  ));
  const edge = (name: 'first' | 'second', label: string) => (
    <input
      aria-label={`${label}, way ${at + 1}`}
      aria-invalid={problem !== undefined}
      aria-describedby={problem === undefined ? undefined : `${id}-note`}
      className="band-edge"
      value={form[name]}
      placeholder={unit === '' ? undefined : `2 ${unit}`}
      autoComplete="off"
      spellCheck={false}
      onChange={({ target }) => change({ ...form, [name]: target.value })}
      onBlur={() => problem === undefined && setDraft(undefined)}
    />
  );
  return (
    <div className="band-fields">
      <select
        aria-label={`Kind of band, way ${at + 1}`}
        value={form.kind}
        onChange={({ target }) => {
          const kind = BAND_FORM_KINDS.find((one) => one === target.value);
          if (kind) change(fitted({ ...form, kind, first: form.first || endOf(kind, ways[at - 1]) }, unit));
        }}
      >
        {kinds}
      </select>
      {edgesOf(form.kind) > 0 &&
        edge('first', form.kind === 'range' ? 'From' : form.kind === 'within' ? 'Within' : form.kind === 'below' ? 'Below' : 'Above')}
      {edgesOf(form.kind) === 2 && (
        <>
          <span className="band-to">to</span>
          {edge('second', 'To')}
        </>
      )}
      {problem !== undefined && (
        <p id={`${id}-note`} className="field-problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}

/** Where the band before ends, which is where a new one begins: an edge that is made up could meet another band by chance, and be moved with it. */
function endOf(kind: BandFormKind, before: Way | undefined): string {
  const form = kind === 'range' || kind === 'above' ? bandForm(before?.on ?? '') : undefined;
  return form?.kind === 'range' ? form.second : form?.kind === 'below' ? form.first : '';
}

/** The edges that a kind of band needs, made up where the kind before had none. */
function fitted(form: BandForm, unit: string): BandForm {
  const number = (value: string): string => (unit === '' ? value : `${value} ${unit}`);
  if (form.kind === 'within')
    return { ...form, first: form.first.includes(' of ') && !form.first.includes('to ') ? form.first : `10 % of ${form.first || number('24')}` };
  const first = edgesOf(form.kind) > 0 && form.first === '' ? number('1') : form.first;
  const second =
    edgesOf(form.kind) === 2 && form.second === '' ? `2 * ${first.includes(' ') && !/^[\d.]+ \S+$/.test(first) ? `(${first})` : first}` : form.second;
  return { ...form, first, second: edgesOf(form.kind) === 2 ? doubled(first, second) : '' };
}

/** Twice a plain number reads better than a product. */
function doubled(first: string, second: string): string {
  const plain = /^([\d.]+)( .*)?$/.exec(first);
  return second.startsWith('2 * ') && plain ? `${Number(plain[1]) * 2}${plain[2] ?? ''}` : second;
}

function readsAs(form: BandForm): string | undefined {
  const again = bandForm(bandText(form));
  return again && bandText(again);
}
