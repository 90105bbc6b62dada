/** The way out at the left of a bar. */
export function BarHome({ href, label }: { readonly href: string; readonly label: string }) {
  return (
    <a className="walk-bar-item walk-bar-home" href={href}>
      <svg viewBox="0 0 16 16" aria-hidden="true">
        <path d="M10 2.5 4.5 8l5.5 5.5" />
      </svg>
      <span className="unseen">{label}</span>
    </a>
  );
}
