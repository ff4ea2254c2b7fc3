/** The line between before and after, by touch, mouse or keys; the same one over every picture. */
import { divider } from '../../state/stains/plan_pictures';
import { words } from '../../words';

export function Divider() {
  const t = words.plan;
  const at = divider.value;
  return (
    <label class="divider">
      <span>{t.before}</span>
      <input
        type="range"
        min={0}
        max={100}
        step={1}
        value={at}
        aria-label={t.line}
        aria-valuetext={t.lineAt(at)}
        onInput={(e) => (divider.value = Number(e.currentTarget.value))}
      />
      <span>{t.after}</span>
    </label>
  );
}

/** Drags the line across an element. */
export function dragDivider(event: PointerEvent): void {
  const element = event.currentTarget as HTMLElement;
  const { left, width } = element.getBoundingClientRect();
  const put = ({ clientX }: PointerEvent) => (divider.value = Math.round(Math.min(Math.max((clientX - left) / width, 0), 1) * 100));
  element.setPointerCapture(event.pointerId);
  put(event);
  element.onpointermove = put;
  element.onpointerup = element.onpointercancel = () => (element.onpointermove = null);
}
