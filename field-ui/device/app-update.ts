/** The state of the installed app. `ready`: it starts without a network. `waiting`: a new version waits to be taken. */
export type AppUpdateState = { readonly ready: boolean; readonly waiting: boolean };

export type AppUpdate = { subscribe(listener: () => void): () => void; state(): AppUpdateState; take(): void };

/**
 * Registers the service worker that keeps the app on the device. A new version waits until the tech takes it on the start screen, and
 * only the tab where that was said starts anew: a call in another tab goes on undisturbed.
 */
export function watchForUpdate(container: ServiceWorkerContainer | undefined, script: string, scope: string): AppUpdate {
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
    noticed();
    found.addEventListener('updatefound', () => found.installing?.addEventListener('statechange', noticed));
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
      container?.addEventListener('controllerchange', () => location.reload(), { once: true });
      registration?.waiting?.postMessage({ type: 'SKIP_WAITING' });
    },
  };
}
