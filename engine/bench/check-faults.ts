import { dimensionOf, factPoints, readFormula } from '../formula/index.ts';
import { DIMENSIONS, dimensionName } from '../quantity/index.ts';
import { TRADE_FUNCTIONS } from '../trade/index.ts';
import { readBecoming } from './becoming.ts';
import type { BenchIndex } from './bench-index.ts';
import { type BenchProblem, formulaTrouble, problemAt } from './bench-problem.ts';
import { judge } from './check-values.ts';
import { factBox } from './fact-corners.ts';
import { GROUND } from './names.ts';
import type { KnownPart } from './parts/part-kinds.ts';

/** Each fault names a part, and something that the part can become. */
export function checkFaults(index: BenchIndex): readonly BenchProblem[] {
  const { bench, parts, partNumber, nodeNumber, dimensions } = index;
  const problems: BenchProblem[] = [];
  const grounded = parts.some(({ known }) => known.ends.some((end) => end.node === GROUND));
  const points = factPoints(factBox(bench));
  for (const [name, fault] of Object.entries(bench.faults)) {
    const part = parts[partNumber.get(fault.part) ?? -1];
    const path = ['faults', name, 'becomes'];
    if (!part) {
      problems.push(problemAt(['faults', name, 'part'], { code: 'unknown-part', name: fault.part, known: [...partNumber.keys()] }));
      continue;
    }
    const { known } = part;
    const becoming = readBecoming(fault.becomes);
    const cannot = (): void => {
      problems.push(
        problemAt(path, { code: 'impossible-fault', about: `${known.about} such as “${fault.part}”`, becomes: fault.becomes, can: canBecome(known) }),
      );
    };
    const onNode = (node: string, offset: number): void => {
      if (!nodeNumber.has(node) || index.leads.some((lead) => lead.name === node)) {
        problems.push(
          problemAt(path, { code: 'unknown-terminal', name: node, known: [...nodeNumber.keys()] }, { span: [offset, offset + node.length] }),
        );
      } else if (node === GROUND && !grounded) problems.push(problemAt(path, { code: 'nothing-on-ground', fault: name }));
    };
    switch (becoming.as) {
      case 'mode':
        if (known.spec.kind === 'state') break;
        if (becoming.mode === 'absent' && known.spec.kind !== 'place') break;
        if (becoming.mode === 'grounded' && known.ends.length > 0) {
          if (!grounded) problems.push(problemAt(path, { code: 'nothing-on-ground', fault: name }));
        } else if (!known.modes.includes(becoming.mode)) cannot();
        break;
      case 'link':
        if (known.ends.length === 0) cannot();
        else onNode(becoming.node, becoming.offset);
        break;
      case 'move':
        if (!known.ends.some((end) => end.node === becoming.from)) cannot();
        else onNode(becoming.to, becoming.offset);
        break;
      case 'state':
        if (known.spec.kind !== 'state' && !(known.spec.kind === 'sequence' && known.states.includes(becoming.state))) cannot();
        break;
      case 'value': {
        if (!known.value) {
          cannot();
          break;
        }
        const formula = readFormula(becoming.text);
        if (!formula.ok) {
          problems.push(formulaTrouble(formula.problem, path, becoming.text, 0, 'fact'));
          break;
        }
        const got = dimensionOf(formula.value, { names: dimensions, functions: TRADE_FUNCTIONS });
        if (!got.ok) problems.push(formulaTrouble(got.problem, path, becoming.text, 0, 'fact'));
        else if (got.value !== DIMENSIONS[known.value.dimension]) {
          problems.push(problemAt(path, { code: 'unit-mismatch', wants: known.value.dimension, got: dimensionName(got.value) }));
        } else judge(formula.value, becoming.text, known.value, points, problems, path, 0, bench.facts);
      }
    }
  }
  return problems;
}

function canBecome(known: KnownPart): readonly string[] {
  const ends = known.ends.length > 0;
  const [first] = known.ends;
  return [
    ...known.modes.map((mode) => `“${mode}”`),
    ...(known.spec.kind === 'place' ? [] : ['“absent”']),
    ...(ends ? ['“grounded”', '“to NODE”', `“moved from ${first?.node ?? 'NODE'} to NODE”`] : []),
    ...(known.value ? [`a ${known.value.dimension} of its own`] : []),
    ...(known.spec.kind === 'state' ? ['any state of your own'] : []),
    ...(known.spec.kind === 'sequence' ? known.states.map((state) => `“${state}”`) : []),
  ];
}
