import { stepId } from '../../tree/index.ts';

/** Gives every step of a draft a title and id of its own; a title that is taken gets a number. */
export class StepNames {
  private readonly taken = new Set<string>();

  take(title: string): { readonly id: string; readonly title: string } {
    for (let number = 1; ; number += 1) {
      const own = number === 1 ? title : `${title} (${number})`;
      const id = stepId(own) || `step-${number}`;
      if (this.taken.has(id)) continue;
      this.taken.add(id);
      return { id, title: own };
    }
  }
}
