type EditionReasonsProps = {
  readonly why: string;
  readonly changes: readonly string[];
  /** Why each kind of warning was let stand, by its code. */
  readonly accepted: Readonly<Record<string, string>>;
};

/** Why an edition was published, what changed in it, and which warnings were let stand. */
export function EditionReasons({ why, changes, accepted }: EditionReasonsProps) {
  const reasons = Object.entries(accepted);
  return (
    <>
      <p>{why}</p>
      <ul className="publish-changes">
        {changes.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      {reasons.length > 0 && <p className="edition-reasons">Let stand: {reasons.map(([code, reason]) => `${code} (${reason})`).join('; ')}</p>}
    </>
  );
}
