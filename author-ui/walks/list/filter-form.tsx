import { type FilterField, type WalkFilter, withField } from '../source/walk-filter.ts';
import { OUTCOMES } from '../walk-words.ts';

export type FilterChoices = {
  readonly trees: readonly { readonly name: string; readonly title: string }[];
  readonly people: readonly { readonly id: string; readonly name: string }[];
  readonly editions: readonly { readonly hash: string; readonly tree: string }[];
};

type FilterFormProps = { readonly filter: WalkFilter; readonly choices: FilterChoices; readonly change: (filter: WalkFilter) => void };

/** Which walks the list shows: every choice is in the address at once. */
export function FilterForm({ filter, choices, change }: FilterFormProps) {
  const set = (field: FilterField) => (value: string) => change(withField(filter, field, value));
  const editions = choices.editions.filter(({ tree }) => filter.tree === undefined || tree === filter.tree);
  const isFiltered = Object.keys(filter).length > 0;
  return (
    <search className="walk-filters">
      <form onSubmit={(event) => event.preventDefault()} aria-label="Which walks are shown">
        <Choice label="Tree" value={filter.tree} set={set('tree')} any="every tree">
          {withOwn(
            choices.trees.map(({ name, title }) => [name, title] as const),
            filter.tree,
          )}
        </Choice>
        <Choice label="Edition" value={filter.edition} set={set('edition')} any="every edition">
          {withOwn(
            editions.map(({ hash }) => [hash, hash.slice(0, 12)] as const),
            filter.edition,
          )}
        </Choice>
        <Choice label="Tech" value={filter.person} set={set('person')} any="everyone">
          {withOwn(
            choices.people.map(({ id, name }) => [id, name] as const),
            filter.person,
          )}
        </Choice>
        <Choice label="Outcome" value={filter.outcome} set={set('outcome')} any="any">
          {Object.entries(OUTCOMES)}
        </Choice>
        <Choice label="Finding" value={filter.confirmed} set={set('confirmed')} any="any">
          {[
            ['open', 'not confirmed yet'],
            ['yes', 'it held'],
            ['no', 'it did not hold'],
          ]}
        </Choice>
        <Choice label="Log" value={filter.flagged} set={set('flagged')} any="any">
          {[
            ['yes', 'something is odd'],
            ['no', 'nothing odd'],
          ]}
        </Choice>
        <Choice label="Drills" value={filter.drill} set={set('drill')} any="calls and drills">
          {[
            ['no', 'calls only'],
            ['yes', 'drills only'],
          ]}
        </Choice>
        <label>
          From
          <input type="date" value={filter.from ?? ''} onChange={(event) => set('from')(event.target.value)} />
        </label>
        <label>
          To
          <input type="date" value={filter.to ?? ''} onChange={(event) => set('to')(event.target.value)} />
        </label>
        {isFiltered && (
          <button type="button" className="button button-quiet" onClick={() => change({})}>
            Show all
          </button>
        )}
      </form>
      {filter.finding !== undefined && (
        <p className="walk-filter-note">Only walks that ended at {filter.finding.split('/')[1]?.replaceAll('-', ' ')}.</p>
      )}
    </search>
  );
}

/** What the address asks for stays choosable although nothing on the list has it. */
function withOwn(options: readonly (readonly [string, string])[], own: string | undefined): readonly (readonly [string, string])[] {
  return own === undefined || options.some(([value]) => value === own) ? options : [...options, [own, own.length > 20 ? own.slice(0, 12) : own]];
}

type ChoiceProps = {
  readonly label: string;
  readonly value: string | undefined;
  readonly set: (value: string) => void;
  readonly any: string;
  readonly children: readonly (readonly [string, string])[] | readonly string[][];
};

function Choice({ label, value, set, any, children }: ChoiceProps) {
  return (
    <label>
      {label}
      <select value={value ?? ''} onChange={(event) => set(event.target.value)}>
        <option value="">{any}</option>
        {children.map(([key = '', words]) => (
          <option key={key} value={key}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}
