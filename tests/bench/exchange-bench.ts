import { eventsCsv, xapiStatements, xesLog } from '../../engine/exchange/index.ts';
import { replayLog, walkableEdition } from '../../engine/walk/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import { WalkDriver } from '../../engine/walk/testing/walk-driver.ts';
import { type Bench, benchRow } from './bench-row.ts';
import { medianTimes } from './median-times.ts';

const READINGS = 500;

const bench: Bench = async () => {
  const edition = walkableEdition(smallEdition());
  const driver = new WalkDriver(edition).open().tell('wiring', 'own').readCautions();
  for (let n = 0; n < READINGS; n += 1) driver.must({ type: 'read', typed: `${20 + (n % 100) / 10}` });
  const { lines } = driver;
  const walks = [{ edition, lines }];
  // What each format needs first: the log replayed and every line checked. Then the log written out as it is.
  const plain = () => {
    replayLog(edition, lines);
    return JSON.stringify(lines);
  };
  const formats: readonly (readonly [string, () => unknown])[] = [
    ['CSV', () => eventsCsv(walks)],
    ['XES', () => xesLog(walks)],
    ['xAPI', () => JSON.stringify(xapiStatements(walks, 'https://hub.example'))],
  ];
  return formats.map(([name, make]) => {
    const { ours, other } = medianTimes(make, plain, { turns: 15, warmUp: 3 });
    return benchRow(`${name} of a log of ${lines.length} lines`, ours, other, 'the same log replayed, and written by JSON.stringify');
  });
};

export default bench;
