/** Ohmward's mark: two meter leads standing on the rung of a ladder drawing. */
export function Mark() {
  return (
    <svg className="mark" viewBox="0 0 64 64" aria-hidden="true">
      <path className="mark-rails" d="M12 8v48M52 8v48" />
      <path className="mark-rung" d="M12 42h14M38 42h14" />
      <path className="mark-lead" d="M26 42 20 12M38 42l6-30" />
      <circle className="mark-point" cx="26" cy="42" r="4" />
      <circle className="mark-point" cx="38" cy="42" r="4" />
    </svg>
  );
}
