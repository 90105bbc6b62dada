/** Bytes under which the tech is told before anything is lost: room for a few photos and any number of readings. */
export const LITTLE_ROOM = 8 * 1024 * 1024;

/** Bytes that can still be stored; undefined where the browser does not say. */
export async function roomLeft(storage: StorageManager | undefined): Promise<number | undefined> {
  try {
    const { quota, usage } = (await storage?.estimate?.()) ?? {};
    return quota === undefined || usage === undefined ? undefined : Math.max(0, quota - usage);
  } catch {
    return undefined;
  }
}

/** Asks the browser not to clear what is stored when it runs short. Resolves to whether it agreed; false where it cannot be asked. */
export async function askToPersist(storage: StorageManager | undefined): Promise<boolean> {
  try {
    return (await storage?.persisted?.()) === true || (await storage?.persist?.()) === true;
  } catch {
    return false;
  }
}
