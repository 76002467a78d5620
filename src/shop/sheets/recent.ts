/** The last few results of costly work by key; work under way is shared, failures are not kept. */
export class Recent<T> {
  private readonly kept = new Map<string, Promise<T>>();

  constructor(private readonly most: number) {}

  get(key: string, make: () => Promise<T>): Promise<T> {
    const found = this.kept.get(key);
    if (found !== undefined) {
      this.kept.delete(key);
      this.kept.set(key, found);
      return found;
    }
    const made = make();
    this.kept.set(key, made);
    made.catch(() => {
      if (this.kept.get(key) === made) this.kept.delete(key);
    });
    for (const oldest of this.kept.keys()) {
      if (this.kept.size <= this.most) break;
      this.kept.delete(oldest);
    }
    return made;
  }
}
