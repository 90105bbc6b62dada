/** A small complete tree without a problem. */
export const SAMPLE = `---
title: No water at the pad
complaint: Heat is running and the control asks for humidity, but the pad stays dry.
benches: [own-transformer]
facts:
  line-volts: { quantity: ac-voltage, ask: Line voltage at the unit, usual: 120 V, from: 108 V, to: 126 V }
  coil-rated: { quantity: ac-voltage, ask: Coil voltage on the valve's label, usual: 24 V, from: 24 V, to: 24 V }
  fuel: { choices: [gas, oil], ask: What the burner runs on, usual: gas }
meter: 1 % + 3 counts
recheck: water-runs is runs
---

What this tree covers, and what it leaves to others.

<Caution signal="warning" about="line-voltage">

Behind the panel is 120 V whenever the unit has power. Work to local code and the maker's instructions.

</Caution>

## Power at R and C

<Reading takes="ac-voltage" across="R to C" while="main-power on" minutes={2} />

Meter on AC volts. Red lead on **R**, black on **C**, at the control's own terminals.

- Stand on a dry floor.
- Keep one hand free.

<Photo ask="The two leads in place" />

<Next>

- below 2 V: [Switch the power off](#switch-the-power-off)
- 2 V to 85 % of coil-rated: [Hand over](#hand-over)
- 85 % of coil-rated to 30 V: [Water runs](#water-runs)
- above 30 V: [Hand over](#hand-over)

</Next>

## Switch the power off

<Act does="turn main-power off, lift coil-hot" minutes={2} />

<Caution signal="caution" about="sharp-edges">

The panel's edge cuts.

</Caution>

<Next>

- done: [Coil ohms](#coil-ohms)
- cannot: [Hand over](#hand-over)

</Next>

## Coil ohms

<Reading takes="resistance" across="V1 to C" while="main-power off" />

<Next>

- below 200 ohm: [The coil is sound](#the-coil-is-sound)
- 200 ohm to 10 kohm: [Hand over](#hand-over)
- above 10 kohm: [The coil is open](#the-coil-is-open)
- open: [The coil is open](#the-coil-is-open)

</Next>

## Water runs

<Look at="the pad" sign="water-runs" />

<Next>

- runs: [What it burns](#what-it-burns)
- dry: [Hand over](#hand-over)

</Next>

## What it burns

<Ask fact="fuel" />

<Next>

- gas: [The coil is sound](#the-coil-is-sound)
- oil: [Hand over](#hand-over)

</Next>

## The coil is open

<Finding faults="coil-open" />

No current can flow through it.

<Repair>

Replace the valve with one of the same voltage.

</Repair>

## The coil is sound

<Finding faults="none" />

## Hand over

<Handoff to="The senior tech" />
`;
