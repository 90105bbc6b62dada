/** A short buzz where the device can; nothing where it cannot, or where the tech wants less motion. */
export function vibrate(pattern: number | number[]): void {
  if (!('vibrate' in navigator) || matchMedia('(prefers-reduced-motion: reduce)').matches) return;
  navigator.vibrate(pattern);
}
