import { z } from 'zod';

const messageSchema = z.object({ say: z.enum(['changed', 'hello', 'here']), path: z.string() });

/** What other windows are told and tell. */
export type WindowLink = { changed(path: string): void; hello(path: string): void };

type Heard = {
  /** Another window has written a file. */
  readonly changed: (path: string) => void;
  /** Another window edits a file that is held here. */
  readonly openElsewhere: (path: string) => void;
  readonly isHeld: (path: string) => boolean;
};

/** Joins this window to the others of the desk; does nothing without a channel. */
export function openWindowLink(channel: BroadcastChannel | undefined, { changed, openElsewhere, isHeld }: Heard): WindowLink {
  const say = (say: 'changed' | 'hello' | 'here', path: string): void => channel?.postMessage({ say, path });
  channel?.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    const message = messageSchema.safeParse(data);
    if (!message.success) return;
    const { path } = message.data;
    if (message.data.say === 'changed') changed(path);
    else if (isHeld(path)) {
      openElsewhere(path);
      if (message.data.say === 'hello') say('here', path);
    }
  });
  return { changed: (path) => say('changed', path), hello: (path) => say('hello', path) };
}
