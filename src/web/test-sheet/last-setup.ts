const key = 'dyewright.setup';

/** The print setup chosen last on this device. */
export function lastSetup(): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

export function rememberSetup(id: string) {
  try {
    localStorage.setItem(key, id);
  } catch {
    // A browser that keeps nothing: it is asked for again next time.
  }
}
