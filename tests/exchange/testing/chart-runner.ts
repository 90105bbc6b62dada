import scxml from '@scion-scxml/scxml';

type Interpreter = { start(): void; gen(event: { name: string; data?: unknown }): void; getConfiguration(): string[] };

/** A chart run by an interpreter of SCXML that is not ours. */
export class ChartRunner {
  private constructor(private readonly interpreter: Interpreter) {
    interpreter.start();
  }

  static of(text: string): Promise<() => ChartRunner> {
    return new Promise((resolve, reject) => {
      scxml.documentStringToModel('chart.scxml', text, (wrong, model) => {
        if (wrong || !model) return reject(wrong);
        model.prepare((unready, prepared) => {
          if (unready || !prepared) return reject(unready);
          resolve(() => new ChartRunner(new scxml.core.Statechart(prepared)));
        });
      });
    });
  }

  /** The innermost state that the chart stands in. */
  get state(): string {
    return this.interpreter.getConfiguration().join(' ');
  }

  send(name: string, data?: unknown): this {
    this.interpreter.gen({ name, ...(data !== undefined && { data }) });
    return this;
  }
}
