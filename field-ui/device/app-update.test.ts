import { expect, it, vi } from 'vitest';
import { watchForUpdate } from './app-update.ts';

/** A worker as a page sees it. */
class FakeWorker extends EventTarget {
  readonly postMessage = vi.fn();
}

class FakeRegistration extends EventTarget {
  installing: FakeWorker | null = null;
  waiting: FakeWorker | null = null;

  /** What was being installed has been. */
  installed(): void {
    const worker = this.installing;
    this.waiting = worker;
    this.installing = null;
    worker?.dispatchEvent(new Event('statechange'));
  }
}

function page() {
  const found = new FakeRegistration();
  const container = Object.assign(new EventTarget(), {
    controller: new FakeWorker(),
    register: async () => found,
    ready: Promise.resolve(found),
  });
  const reload = vi.fn();
  const watch = () => watchForUpdate(container as unknown as ServiceWorkerContainer, '/sw.js', '/', reload);
  return { found, container, reload, watch };
}

it('a new version that the browser began to install by itself before the page asked is offered', async () => {
  const { found, watch } = page();
  found.installing = new FakeWorker();
  const update = watch();
  await vi.waitFor(() => expect(update.state()).toEqual({ ready: true, waiting: false }));
  found.installed();
  expect(update.state().waiting).toBe(true);
});

it('a new version that comes later is offered, and taken where that is pressed', async () => {
  const { found, container, reload, watch } = page();
  const update = watch();
  await vi.waitFor(() => expect(update.state().ready).toBe(true));
  const newer = new FakeWorker();
  found.installing = newer;
  found.dispatchEvent(new Event('updatefound'));
  found.installed();
  expect(update.state().waiting).toBe(true);
  update.take();
  expect(newer.postMessage).toHaveBeenCalledWith({ type: 'SKIP_WAITING' });
  expect(reload).not.toHaveBeenCalled();
  container.dispatchEvent(new Event('controllerchange'));
  expect(reload).toHaveBeenCalledOnce();
});

it('where another tab has taken the new version already, the page only starts anew', async () => {
  const { found, reload, watch } = page();
  found.waiting = new FakeWorker();
  const update = watch();
  await vi.waitFor(() => expect(update.state().waiting).toBe(true));
  found.waiting = null;
  update.take();
  expect(reload).toHaveBeenCalledOnce();
});
