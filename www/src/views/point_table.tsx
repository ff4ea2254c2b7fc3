/** Outline points and axis ends as numbers. */
import type { Point } from '../engine/types';
import { changeScene, scene } from '../state/desk';
import { insertPoint, removePoint } from '../state/outline_edit';
import { withAxisEnd, withOutline, type AxisEnd } from '../state/scene_edit';
import { regionById, regionIdOf, type Shape } from '../state/shapes';
import { reading } from '../state/reading';
import { selectedPoint } from '../state/ui';
import { words } from '../words';
import { NumberField } from './number_field';

function Pair({ at, what, put }: { at: Point; what: string; put: (at: Point) => void }) {
  const t = words.shape;
  return (
    <>
      <td>
        <NumberField value={at[0]} label={t.coordinate(what, t.x)} put={(x) => put([x, at[1]])} />
      </td>
      <td>
        <NumberField value={at[1]} label={t.coordinate(what, t.y)} put={(y) => put([at[0], y])} />
      </td>
    </>
  );
}

function AxisRows({ id }: { id: string }) {
  const t = words.shape;
  const region = regionById(scene.value, id);
  // An axis that nobody set yet is the one the reading used.
  const used = regionById(reading.value?.report.scene ?? scene.value, id);
  return (
    <>
      {(['cervical', 'incisal'] as const satisfies AxisEnd[]).map((end) => {
        const at = region?.[end] ?? used?.[end];
        const put = (to: Point) => changeScene(words.edits.moveAxis, (s) => withAxisEnd(s, id, end, to), `type ${id} ${end}`);
        return (
          at && (
            <tr key={end}>
              <th scope="row">{t[end]}</th>
              <Pair at={at} what={t[end]} put={put} />
              <td />
            </tr>
          )
        );
      })}
    </>
  );
}

export function NumberTable({ shape }: { shape: Shape }) {
  const t = words.shape;
  const id = regionIdOf(shape.key);
  const put = (outline: Point[], label: string, run: string | null = null) =>
    changeScene(label, (s) => withOutline(s, shape.key, outline), run);
  const every = shape.outline.map((_, i) => i);
  return (
    <table class="point-table">
      <caption>{t.points}</caption>
      <thead>
        <tr>
          <th scope="col">{t.pointNumber}</th>
          <th scope="col">{t.x}</th>
          <th scope="col">{t.y}</th>
          <td />
        </tr>
      </thead>
      <tbody>
        {id !== null && <AxisRows id={id} />}
        {shape.outline.map((at, i) => (
          <tr key={i} class={i === selectedPoint.value ? 'chosen' : undefined} onFocusCapture={() => (selectedPoint.value = i)}>
            <th scope="row">{i + 1}</th>
            <Pair
              at={at}
              what={`${t.pointNumber} ${i + 1}`}
              put={(to) => put(shape.outline.map((p, j) => (j === i ? to : p)), words.edits.movePoint, `type ${shape.key} ${i}`)}
            />
            <td>
              <button type="button" aria-label={t.insertAfter(i + 1)} onClick={() => put(insertPoint(shape.outline, i).outline, words.edits.addPoint)}>
                +
              </button>
              <button type="button" aria-label={t.removeNth(i + 1)} onClick={() => put(removePoint(shape.outline, i, every), words.edits.removePoint)}>
                −
              </button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
