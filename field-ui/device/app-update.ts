/** The state of the installed app. `ready`: it starts without a network. `waiting`: a new version waits to be taken. */
export type AppUpdateState = { readonly ready: boolean; readonly waiting: boolean };

export type AppUpdate = { subscribe(listener: () => void): () => void; state(): AppUpdateState; take(): void };

/**
 * Registers the service worker that keeps the app on the device. A new version waits until the tech takes it on the start screen, and
 * only the tab where that was said starts anew: a call in another tab goes on undisturbed.
 */
export function watchForUpdate(
  container: ServiceWorkerContainer | undefined,
  script: string,
  scope: string,
  reload: () => void = () => location.reload(),
): AppUpdate {
  let state: AppUpdateState = { ready: false, waiting: false };
  let registration: ServiceWorkerRegistration | undefined;
  const listeners = new Set<() => void>();
  const show = (next: Partial<AppUpdateState>): void => {
    state = { ...state, ...next };
    for (const listener of listeners) listener();
  };

  const look = (found: ServiceWorkerRegistration): void => {
    registration = found;
    // Without a controller the worker is the first one: nothing newer than this page.
    const noticed = (): void => {
      if (found.waiting && container?.controller) show({ waiting: true });
    };
    const follow = (): void => found.installing?.addEventListener('statechange', noticed);
    noticed();
    // The browser looks for a new version by itself, and may have begun to install it before this page asked.
    follow();
    found.addEventListener('updatefound', follow);
  };
  // No service worker (a page that is not served securely, a private window): the app works, but not without a network.
  container?.register(script, { scope }).then(look, () => undefined);
  container?.ready.then(() => show({ ready: true })).catch(() => undefined);

  return {
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    state: () => state,
    take: () => {
      const waiting = registration?.waiting;
      // Another tab may have taken it already; then this one has only to start anew.
      if (!waiting) return reload();
      container?.addEventListener('controllerchange', () => reload(), { once: true });
      waiting.postMessage({ type: 'SKIP_WAITING' });
    },
  };
}
