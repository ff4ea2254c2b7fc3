/** The rows of the table of own tabs: a tab by its name and colour, its thirds folded away. */
import { useSignal } from '@preact/signals';
import { THIRDS, type Zone } from '../engine/types';
import { RANGES, type Cells, type TabDraft } from '../state/own_tabs';
import { draft, edit, faults } from '../state/tab_book';
import { words } from '../words';

interface RowProps {
  tab: TabDraft;
  at: number;
}

const replace = (at: number, next: TabDraft) => {
  const now = draft.value!;
  edit({ ...now, tabs: now.tabs.map((tab, i) => (i === at ? next : tab)) });
};

function LabCells({ tab, at, zone }: RowProps & { zone: Zone }) {
  const t = words.tabs;
  const wrong = (axis: number) => faults.value.some((f) => f.code === 'range' && f.row === at && f.zone === zone && f.axis === axis);
  const put = (axis: number, text: string) => {
    const cells = tab.cells[zone].map((old, i) => (i === axis ? text : old)) as unknown as Cells;
    replace(at, { ...tab, cells: { ...tab.cells, [zone]: cells } });
  };
  return (
    <>
      {RANGES.map(({ name }, axis) => (
        <td key={name}>
          <input
            inputMode="text"
            autocomplete="off"
            value={tab.cells[zone][axis]}
            aria-label={t.field(tab.name || String(at + 1), t.row[zone], name)}
            aria-invalid={wrong(axis)}
            onInput={(e) => put(axis, e.currentTarget.value)}
          />
        </td>
      ))}
    </>
  );
}

export function TabRows({ tab, at }: RowProps) {
  const t = words.tabs;
  const thirds = useSignal(THIRDS.some((zone) => tab.cells[zone].some((text) => text !== '')));
  const remove = () => edit({ ...draft.value!, tabs: draft.value!.tabs.filter((_, i) => i !== at) });
  const name = tab.name || String(at + 1);
  return (
    <>
      <tr>
        <td>
          <input class="tab-name" value={tab.name} maxLength={60} autocomplete="off" aria-label={t.fieldName(at + 1)} onInput={(e) => replace(at, { ...tab, name: e.currentTarget.value })} />
        </td>
        <LabCells tab={tab} at={at} zone="whole" />
        <td>
          <button type="button" aria-expanded={thirds.value} aria-label={t.thirdsOf(name)} onClick={() => (thirds.value = !thirds.value)}>
            {t.thirds}
          </button>
          <button type="button" aria-label={t.remove(name)} onClick={remove}>
            −
          </button>
        </td>
      </tr>
      {thirds.value &&
        THIRDS.map((zone) => (
          <tr key={zone} class="third-row">
            <th scope="row">{t.row[zone]}</th>
            <LabCells tab={tab} at={at} zone={zone} />
            <td />
          </tr>
        ))}
    </>
  );
}
