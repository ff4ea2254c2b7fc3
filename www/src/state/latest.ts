/** Runs one task at a time; of those asked for meanwhile only the newest. */
export function latestOnly<T>(run: (value: T) => Promise<void>): (value: T) => void {
  let waiting: { value: T } | null = null;
  let running = false;
  const pump = async () => {
    if (running) return;
    running = true;
    try {
      while (waiting) {
        const { value } = waiting;
        waiting = null;
        await run(value);
      }
    } finally {
      running = false;
    }
  };
  return (value) => {
    waiting = { value };
    void pump();
  };
}
