/** The id of a step's section in the page. Prefixed, so that no step of any tree can take an id that the page itself uses. */
export const stepElementId = (step: string): string => `step-${step}`;
