declare module '@scion-scxml/scxml' {
  type Prepared = { readonly prepared: unique symbol };
  type Model = { prepare(done: (wrong: unknown, prepared?: Prepared) => void): void };
  const scxml: {
    documentStringToModel(name: string, text: string, done: (wrong: unknown, model?: Model) => void): void;
    readonly core: {
      Statechart: new (prepared: Prepared) => { start(): void; gen(event: { name: string; data?: unknown }): void; getConfiguration(): string[] };
    };
  };
  export default scxml;
}
