/** What is known of a circuit while it is drawn. All of it is optional: without any, the circuit is drawn at rest. */
export type LadderState = {
  /** Volts of each node against the return rail of its own ladder; what no supply reaches is 0. */
  readonly volts?: Readonly<Record<string, number>>;
  /** Parts with power on them or passing it on. */
  readonly energisedParts?: readonly string[];
  /** The state of each part as solved, in the bench's words: open, closed, blown, pulled-in. */
  readonly parts?: Readonly<Record<string, string>>;
  readonly jumpers?: readonly Jumper[];
  /** Names of the leads that are off their terminals. */
  readonly lifted?: readonly string[];
  /** Settings that are not as the tech found them. */
  readonly forced?: Readonly<Record<string, string>>;
  readonly faults?: readonly KnownFault[];
  /** What the step is about: parts to be named, leads to be shown where they are landed. */
  readonly asked?: { readonly parts?: readonly string[]; readonly leads?: readonly string[] };
};

/** `planned`: about to be put on, not on yet. */
export type Jumper = { readonly from: string; readonly to: string; readonly name?: string; readonly planned?: boolean };

/** `word`: what the part has become, in a word or two. `breaks`: no current passes there. */
export type KnownFault = { readonly part: string; readonly word: string; readonly breaks: boolean };

/** Where the meter's leads stand: terminals, or the names of lifted leads. */
export type MeterLeads = { readonly red: string; readonly black: string };

/** Volts from which a node is drawn as energised. */
export const LIVE_VOLTS = 1;

export const isLive = (state: LadderState, node: string): boolean => Math.abs(state.volts?.[node] ?? 0) >= LIVE_VOLTS;
