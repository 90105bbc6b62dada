import { useEffect } from 'react';

/** Keeps the screen awake while the component is shown, where the browser can. The system ends it in the background; coming back asks again. */
export function useWakeLock(): void {
  useEffect(() => {
    const wakeLock: WakeLock | undefined = navigator.wakeLock;
    if (!wakeLock) return;
    let held: WakeLockSentinel | undefined;
    let ended = false;
    const ask = (): void => {
      if (document.visibilityState !== 'visible') return;
      wakeLock.request('screen').then(
        (sentinel) => {
          if (ended) void sentinel.release();
          else held = sentinel;
        },
        () => undefined,
      );
    };
    ask();
    document.addEventListener('visibilitychange', ask);
    return () => {
      ended = true;
      document.removeEventListener('visibilitychange', ask);
      void held?.release();
    };
  }, []);
}
