// The kept cases, as the page's own database has them: none may go but by the walk's own hand.

/** Every kept case by its id, and which one is on the desk. */
const look = (page) =>
  page.evaluate(async () => {
    const here = sessionStorage.getItem('tabside.case.here') || null;
    // To open it would make it.
    if (!(await indexedDB.databases()).some(({ name }) => name === 'tabside')) return { here, cases: [] };
    const asked = indexedDB.open('tabside');
    const db = await new Promise((done, fail) => ((asked.onsuccess = () => done(asked.result)), (asked.onerror = () => fail(asked.error))));
    try {
      if (!db.objectStoreNames.contains('cases')) return { here, cases: [] };
      const all = (store) => {
        const found = store.getAll();
        return new Promise((done, fail) => ((found.onsuccess = () => done(found.result)), (found.onerror = () => fail(found.error))));
      };
      const tx = db.transaction(['cases', 'docs']);
      const [heads, docs] = await Promise.all([all(tx.objectStore('cases')), all(tx.objectStore('docs'))]);
      const photos = new Map(docs.map(({ id, doc }) => [id, doc.photos.length]));
      return { here, cases: heads.map((h) => ({ id: h.id, label: h.label, photos: photos.get(h.id) ?? -1, deleted: h.deleted !== undefined, empty: h.empty === true })) };
    } finally {
      db.close();
    }
  });

export class Cases {
  /** As they were last, by id. */
  #before = new Map();
  #hands = new Set();
  count = 0;
  most = 0;
  removed = 0;

  async check(page, problems) {
    // Since the last look somebody pressed what removes cases.
    const mayRemove = await page.evaluate(() => spied.removals !== (spied.removals = 0));
    const { here, cases } = await look(page);
    const now = new Map(cases.map((one) => [one.id, one]));
    // What was on the desk at the last look, or is now, may have been emptied by its user.
    this.#hands.add(here);
    for (const [id, before] of this.#before) {
      const after = now.get(id);
      const name = before.label || id.slice(0, 8);
      // What its user left bare is cleared away when the page is opened again.
      if (before.deleted || before.empty) continue;
      const mine = mayRemove || this.#hands.has(id);
      if (!after) {
        if (!mayRemove) problems.add('case lost', `${name} is not there any more`);
        else this.removed++;
      } else if (after.deleted) {
        if (!mine) problems.add('case lost', `${name} is deleted, and nobody did it`);
        else this.removed++;
      } else if (after.empty) {
        if (!this.#hands.has(id)) problems.add('case lost', `${name} is empty, and was not on the desk`);
      } else if (after.photos < before.photos && !this.#hands.has(id)) problems.add('case lost', `${name} had ${before.photos} photos and has ${after.photos}`);
      else if (after.photos < 0) problems.add('case lost', `${name} has no document`);
    }
    this.#before = now;
    this.#hands = new Set([here]);
    this.count = cases.filter((one) => !one.deleted && !one.empty).length;
    this.most = Math.max(this.most, this.count);
  }
}
