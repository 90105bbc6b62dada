import type { Edition, WalkLine } from '../../../engine/walk/index.ts';
import type { LocalDrillRun, LocalPhoto, SyncStore, WalkNote } from '../../../shared/sync/sync-store.ts';
import type { GivenDrill } from '../../../shared/sync/wire/drill-wire.ts';
import type { ListedEdition, WithdrawnEdition } from '../../../shared/sync/wire/edition-wire.ts';
import { headOf } from './sample-walks.ts';

/** A phone's storage that lives as long as the test. */
export class PhoneInMemory implements SyncStore {
  readonly walks = new Map<string, WalkLine[]>();
  readonly sent = new Map<string, number>();
  readonly notes: { readonly walk: string; readonly note: WalkNote }[] = [];
  readonly photos: LocalPhoto[] = [];
  readonly photosSent = new Map<string, string | undefined>();
  readonly kept = new Map<string, Edition>();
  given: readonly GivenDrill[] = [];
  readonly runs: LocalDrillRun[] = [];
  readonly runsSent = new Map<string, string | undefined>();
  listed: readonly ListedEdition[] = [];
  withdrawn: readonly WithdrawnEdition[] = [];

  write(...lines: readonly WalkLine[]): void {
    for (const line of lines) {
      const list = this.walks.get(line.walk);
      if (list) list.push(line);
      else this.walks.set(line.walk, [line]);
    }
  }

  #all = () => [...this.walks].map(([walk, lines]) => ({ walk, length: lines.length, head: headOf(lines), sent: this.sent.get(walk) ?? 0 }));

  async unsent() {
    return this.#all().filter(({ sent, length }) => sent < length);
  }
  async latest(most: number) {
    return this.#all().slice(-most);
  }
  async lines(walk: string, from: number, most: number) {
    return (this.walks.get(walk) ?? []).slice(from, from + most);
  }
  async setSent(walk: string, count: number) {
    this.sent.set(walk, count);
  }
  async note(walk: string, note: WalkNote) {
    this.notes.push({ walk, note });
  }
  async unsentPhotos(most: number) {
    return this.photos.filter(({ id, walk }) => !this.photosSent.has(id) && (this.sent.get(walk) ?? 0) > 0).slice(0, most);
  }
  async setPhotoSent(id: string, why?: string) {
    this.photosSent.set(id, why);
  }
  async editionHashes() {
    return [...this.kept.keys()];
  }
  async edition(hash: string) {
    return this.kept.get(hash);
  }
  async keepEdition({ hash }: ListedEdition, edition: Edition) {
    this.kept.set(hash, edition);
  }
  async setList(entries: readonly ListedEdition[], withdrawn: readonly WithdrawnEdition[]) {
    this.listed = entries;
    this.withdrawn = withdrawn;
  }
  async drills() {
    return this.given;
  }
  async keepDrills(drills: readonly GivenDrill[]) {
    this.given = drills;
  }
  async unsentDrillRuns() {
    return this.runs.filter(({ id }) => !this.runsSent.has(id));
  }
  async drillRunSent(id: string, why?: string) {
    this.runsSent.set(id, why);
  }
}
