type Written = { subscribe(listener: () => void): () => void; state(): { readonly writing: boolean } };

/** Resolves once nothing is being written. Ask again after it: another may have begun to write since. */
export function whenWritten(session: Written): Promise<void> {
  return new Promise((resolve) => {
    const leave = session.subscribe(() => look());
    const look = (): void => {
      if (session.state().writing) return;
      leave();
      resolve();
    };
    look();
  });
}
