import { afterEach, describe, expect, test, vi } from 'vitest';
import { inTurn } from './in-turn.ts';

afterEach(() => vi.unstubAllGlobals());

/** Work that says when it begins, and ends when it is told to. */
function work(name: string, said: string[]) {
  let end = (): void => undefined;
  let fail = (): void => undefined;
  const ended = new Promise<void>((resolve, reject) => {
    end = resolve;
    fail = () => reject(new Error(name));
  });
  const run = (): Promise<void> => {
    said.push(name);
    return ended;
  };
  return { run, end: () => end(), fail: () => fail() };
}

const aWhile = async (): Promise<void> => {
  for (let n = 0; n < 20; n += 1) await new Promise((resolve) => setImmediate(resolve));
};

test('what is asked for later begins when what was asked for before has ended, also where that failed', async () => {
  const said: string[] = [];
  const [one, two, three] = [work('one', said), work('two', said), work('three', said)];
  const answers = Promise.allSettled([one, two, three].map(({ run }) => inTurn('list', run)));
  await aWhile();
  expect(said).toEqual(['one']);
  one.fail();
  await aWhile();
  expect(said).toEqual(['one', 'two']);
  two.end();
  three.end();
  expect((await answers).map(({ status }) => status)).toEqual(['rejected', 'fulfilled', 'fulfilled']);
  expect(said).toEqual(['one', 'two', 'three']);
});

describe('among tabs', () => {
  const withLocks = (request: (name: string, options: LockOptions, run: () => Promise<unknown>) => Promise<unknown>) =>
    vi.stubGlobal('navigator', { locks: { request } });

  test('it is done under the browser’s lock of that name', async () => {
    const said: string[] = [];
    withLocks(async (name, _options, run) => {
      said.push(`held ${name}`);
      const answer = await run();
      said.push('let go');
      return answer;
    });
    expect(await inTurn('list', async () => said.push('done'))).toBe(2);
    expect(said).toEqual(['held list', 'done', 'let go']);
  });

  test('one that never lets go is not waited for for ever', async () => {
    withLocks(async (_name, { signal }) => {
      expect(signal).toBeInstanceOf(AbortSignal);
      throw new DOMException('too long', 'TimeoutError');
    });
    expect(await inTurn('list', async () => 'done')).toBe('done');
  });

  test('what fails is not done a second time', async () => {
    withLocks((_name, _options, run) => run());
    let times = 0;
    const failing = inTurn('list', async () => {
      times += 1;
      throw new Error('its own');
    });
    await expect(failing).rejects.toThrow('its own');
    expect(times).toBe(1);
  });
});
