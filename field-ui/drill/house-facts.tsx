import { plainWords } from '../../shared/ui/words/plain-words.ts';
import { useDrill } from './use-drill.ts';

/** The circuit and the house as they are known before anything is read. */
export function HouseFacts() {
  const { ground } = useDrill().run;
  const { bench, task, edition } = ground;
  const told = Object.entries(task.facts).flatMap(([name, typed]) => {
    const spec = bench.facts[name] ?? edition.compiled.facts.get(name)?.spec;
    return spec ? [{ name, ask: spec.ask, value: 'choices' in spec ? plainWords(typed) : typed }] : [];
  });
  const usual = Object.entries(bench.facts).filter(([name]) => !Object.hasOwn(task.facts, name));
  return (
    <section aria-label="This house">
      <dl className="drill-house">
        <div>
          <dt>Circuit</dt>
          <dd>{bench.title}</dd>
        </div>
        {told.map(({ name, ask, value }) => (
          <div key={name}>
            <dt>{ask}</dt>
            <dd>{value}</dd>
          </div>
        ))}
        {usual.map(([name, fact]) => (
          <div key={name}>
            <dt>{fact.ask}</dt>
            <dd>{fact.usual}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
