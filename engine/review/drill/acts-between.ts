import { type Action, jumperKey } from '../../tree/index.ts';
import type { CircuitState } from '../../walk/index.ts';

/** The acts that make the one circuit of the other, as a tree's step did them. */
export function actsBetween(before: CircuitState, after: CircuitState): readonly Action[] {
  const keys = (circuit: CircuitState): ReadonlySet<string> => new Set(circuit.jumpers.map((ends) => jumperKey(...ends)));
  const [had, has] = [keys(before), keys(after)];
  const proved =
    after.meterProved !== before.meterProved || after.dead.some(({ meterAfter }, i) => meterAfter && before.dead[i]?.meterAfter === false);
  return [
    ...before.jumpers.filter((ends) => !has.has(jumperKey(...ends))).map(([from, to]): Action => ({ do: 'remove-jumper', from, to })),
    ...before.lifted.filter((lead) => !after.lifted.includes(lead)).map((lead): Action => ({ do: 'land', lead })),
    ...Object.entries(after.settings)
      .filter(([setting, state]) => before.settings[setting] !== state)
      .map(([setting, state]): Action => ({ do: 'turn', setting, state })),
    ...(proved && (after.meterProved || after.dead.length > 0) ? [{ do: 'prove-meter' } as const] : []),
    ...after.lifted.filter((lead) => !before.lifted.includes(lead)).map((lead): Action => ({ do: 'lift', lead })),
    ...after.jumpers.filter((ends) => !had.has(jumperKey(...ends))).map(([from, to]): Action => ({ do: 'jumper', from, to })),
  ];
}
