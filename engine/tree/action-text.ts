import { type Action, actionSchema, type SettingHold } from './tree.ts';

const FORMS: readonly (readonly [RegExp, (m: RegExpExecArray) => unknown])[] = [
  [/^turn\s+(\S+)\s+(\S+)$/, (m) => ({ do: 'turn', setting: m[1], state: m[2] })],
  [/^remove\s+jumper\s+(\S+)\s+to\s+(\S+)$/, (m) => ({ do: 'remove-jumper', from: m[1], to: m[2] })],
  [/^jumper\s+(\S+)\s+to\s+(\S+)$/, (m) => ({ do: 'jumper', from: m[1], to: m[2] })],
  [/^lift\s+(\S+)$/, (m) => ({ do: 'lift', lead: m[1] })],
  [/^land\s+(\S+)$/, (m) => ({ do: 'land', lead: m[1] })],
  [/^prove\s+the\s+meter$/, () => ({ do: 'prove-meter' })],
];

/** The forms that an action may be written in, for messages. */
export const ACTION_FORMS = ['turn SETTING STATE', 'jumper A to B', 'remove jumper A to B', 'lift LEAD', 'land LEAD', 'prove the meter'] as const;

/** Reads one action such as `jumper K1 to K2`; undefined where it has none of the forms. */
export function readAction(text: string): Action | undefined {
  const plain = text.trim().replace(/\s+/g, ' ');
  for (const [form, build] of FORMS) {
    const match = form.exec(plain);
    if (!match) continue;
    const action = actionSchema.safeParse(build(match));
    return action.success ? action.data : undefined;
  }
  return undefined;
}

/** The canonical text of an action. */
export function showAction(action: Action): string {
  switch (action.do) {
    case 'turn':
      return `turn ${action.setting} ${action.state}`;
    case 'jumper':
      return `jumper ${action.from} to ${action.to}`;
    case 'remove-jumper':
      return `remove jumper ${action.from} to ${action.to}`;
    case 'prove-meter':
      return 'prove the meter';
    default:
      return `${action.do} ${action.lead}`;
  }
}

/** `heat-call on`: a setting and the state it must hold. */
export const showHold = (hold: SettingHold): string => `${hold.setting} ${hold.state}`;

/** Two jumpers between the same points are one, whichever end is named first. */
export const jumperKey = (a: string, b: string): string => (a < b ? `${a}~${b}` : `${b}~${a}`);
