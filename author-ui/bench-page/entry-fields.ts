import type { PartKindName } from '../../engine/bench/index.ts';
import { QUANTITY_KIND_NAMES } from '../../engine/quantity/index.ts';

/** How a field of an entry is typed: `pair` as two points, `words` as names with commas between, `stages` a row a way, `becomes` by what happens. */
export type FieldForm = 'text' | 'long' | 'pair' | 'words' | 'number' | 'choice' | 'stages' | 'becomes';

export type EntryField = {
  readonly name: string;
  readonly label: string;
  readonly as: FieldForm;
  readonly needed?: true;
  readonly hint?: string;
  readonly choices?: readonly string[];
};

const need = (name: string, label: string, hint?: string, as: FieldForm = 'text'): EntryField => ({
  name,
  label,
  as,
  needed: true,
  ...(hint !== undefined && { hint }),
});
const may = (name: string, label: string, hint?: string, as: FieldForm = 'text'): EntryField => ({
  name,
  label,
  as,
  ...(hint !== undefined && { hint }),
});

const BETWEEN = need('between', 'Between', undefined, 'pair');
const LABEL = may('label', 'Called', 'as people call it');
const LEAD = may('lead', 'Leads that can be lifted', 'coil-hot on V1', 'words');
const WHEN = may('when', 'Only when', 'main-power is on');
const OHMS = may('ohms', 'Resistance', '0.3 ohm');
const GUARDS = 'Guards, as a safety';
const CLOSED = need('closed-when', 'Closed when', 'heat-call is on and volts(R, C) above 18 V');

const CONTACT = [LABEL, BETWEEN, CLOSED, OHMS, may('safety', GUARDS, 'parts that must not run without it', 'words'), LEAD];

/** The fields of each kind of part, as its form asks for them. */
export const PART_FIELDS: Readonly<Record<PartKindName, readonly EntryField[]>> = {
  source: [LABEL, BETWEEN, need('volts', 'Volts', '120 V'), OHMS, may('phase', 'Phase, degrees', '180', 'number'), WHEN, LEAD],
  'dc-source': [LABEL, BETWEEN, need('volts', 'Volts', '5 V'), OHMS, WHEN, LEAD],
  transformer: [
    LABEL,
    need('primary', 'Primary', undefined, 'pair'),
    need('secondary', 'Secondary', undefined, 'pair'),
    need('rated', 'Rated', '120 V to 24 V'),
    need('va', 'VA', '40 VA'),
    need('no-load', 'Secondary with no load', '27 V'),
    may('no-load-va', 'VA with no load', '4 VA'),
    LEAD,
  ],
  wire: [
    LABEL,
    BETWEEN,
    need('gauge', 'Gauge', '18 AWG'),
    need('length', 'Length one way', '40 ft'),
    may('temperature', 'Temperature', '68 °F'),
    may('stray', 'Stray capacitance', '30 pF/ft to R'),
    LEAD,
  ],
  contact: CONTACT,
  switch: CONTACT,
  limit: CONTACT.map((field) => (field.name === 'safety' ? { ...field, needed: true as const } : field)),
  fuse: [LABEL, BETWEEN, need('rating', 'Rating', '3 A'), OHMS, LEAD],
  coil: [
    LABEL,
    BETWEEN,
    need('rated', 'Rated volts', '24 V'),
    need('va', 'VA held in', '10 VA'),
    need('resistance', 'Winding resistance', '30 ohm'),
    may('inrush-va', 'VA before it pulls in', '25 VA'),
    may('pulls-in', 'Pulls in at', '85 %'),
    may('drops-out', 'Drops out at', '50 %'),
    LEAD,
  ],
  load: [
    LABEL,
    BETWEEN,
    may('ohms', 'Resistance, or VA and rated volts', '600 ohm'),
    may('va', 'VA', '10 VA'),
    may('rated', 'Rated volts', '24 V'),
    may('power-factor', 'Power factor', '0.8'),
    WHEN,
    LEAD,
  ],
  resistor: [LABEL, BETWEEN, need('ohms', 'Resistance', '100 ohm'), LEAD],
  capacitor: [LABEL, BETWEEN, need('capacitance', 'Capacitance', '5 uF'), LEAD],
  inductor: [LABEL, BETWEEN, need('inductance', 'Inductance', '0.1 H'), may('resistance', 'Winding resistance', '5 ohm'), LEAD],
  thermistor: [
    LABEL,
    BETWEEN,
    may('ohms', 'Resistance at 77 °F', '10 kohm'),
    need('curve', 'Curve', 'type-2'),
    need('temperature', 'Temperature', 'outdoor'),
    LEAD,
  ],
  flame: [
    LABEL,
    BETWEEN,
    need('amps', 'Flame current', '3 uA'),
    need('rated', 'At volts', '120 V'),
    need('lit-when', 'Lit when', 'gas-valve is pulled-in'),
    LEAD,
  ],
  sequence: [LABEL, need('stages', 'Stages, and what leads from each to another', undefined, 'stages')],
  state: [LABEL, need('is', 'Is', 'open'), may('or', 'Can also be', 'shut', 'words')],
  place: [
    LABEL,
    { name: 'reads', label: 'Read as', as: 'choice', needed: true, choices: QUANTITY_KIND_NAMES },
    need('is', 'Is', '70 °F'),
    may('while', 'While', 'burner is on'),
    may('else', 'Otherwise', '60 °F'),
  ],
};

export const FAULT_FIELDS: readonly EntryField[] = [
  { name: 'part', label: 'Part', as: 'choice', needed: true },
  need('becomes', 'Becomes', undefined, 'becomes'),
  may('weight', 'Weight: how often it is met, against the others', '1', 'number'),
  may('prior', 'Prior: its weight before confirmed calls were counted in', undefined, 'number'),
  may('says', 'In plain words', 'The coil of the valve is burned open'),
];

export const FACT_FIELDS: readonly EntryField[] = [
  { name: 'quantity', label: 'Kind', as: 'choice', needed: true, choices: QUANTITY_KIND_NAMES },
  need('ask', 'Asked as', 'Line voltage at the unit'),
  need('usual', 'Usually', '120 V'),
  need('from', 'From', '108 V'),
  need('to', 'To', '126 V'),
];
