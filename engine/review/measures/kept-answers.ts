/** Answers by their question; the last ones that were asked for are kept. */
export class KeptAnswers<T> {
  private readonly kept = new Map<string, { readonly answer: T }>();

  constructor(private readonly most: number) {}

  answer(question: string, work: () => T): T {
    const found = this.kept.get(question) ?? { answer: work() };
    this.kept.delete(question);
    this.kept.set(question, found);
    const [oldest] = this.kept.keys();
    if (this.kept.size > this.most && oldest !== undefined) this.kept.delete(oldest);
    return found.answer;
  }
}
