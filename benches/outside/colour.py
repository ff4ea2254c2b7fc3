"""What the colour kernels are measured against: OpenCV's and scikit-image's own, one thread each.

Called as

    python3 benches/outside/colour.py [MEGAPIXELS [ROUNDS]]

(12 and 7 unless told otherwise). `median_ms` is of the clock, `median_cpu_ms` of the processor's time,
which says the same on a busy machine too: all is one thread. Prints one line of JSON for each measure:

    {"measure": "srgb8_to_lab", "by": "opencv", "version": "4.6.0", "megapixels": 12.0, "rounds": 7,
     "median_ms": 123.4, "median_cpu_ms": 122.9, "ms": [...], "checksum": 57.4}

`srgb8_to_lab` is `cv2.cvtColor(float32 in 0–1, COLOR_RGB2Lab)` alone: making floats of the bytes is left
out, to its favour. `delta_e_00` is `skimage.color.deltaE_ciede2000` of two such pictures (float32 Lab).
The pixels are those of `www/bench/colour.mjs`: the same sequence from the same seeds. `checksum` is the
mean of L*, or of ΔE00, so that both can be seen to have done the same.

Needs Debian's python3-opencv and python3-skimage (or PyPI's of the same names).
"""

import json
import os
import statistics
import sys
import time

for _name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ[_name] = "1"

import cv2  # noqa: E402
import numpy as np  # noqa: E402
import skimage  # noqa: E402
from skimage.color import deltaE_ciede2000  # noqa: E402

WIDTH_PX = 4000


def pixels(count, seed):
    """Bytes of a linear congruential generator (Numerical Recipes' constants), the upper 8 bits."""
    out = np.empty(count, dtype=np.uint8)
    block = 1 << 16
    powers = np.empty(block, dtype=np.uint32)
    sums = np.empty(block, dtype=np.uint32)
    power, total = 1, 0
    for i in range(block):
        power = power * 1664525 & 0xFFFFFFFF
        total = (total * 1664525 + 1013904223) & 0xFFFFFFFF
        powers[i], sums[i] = power, total
    state = np.uint32(seed)
    for start in range(0, count, block):
        states = powers * state + sums
        out[start : start + block] = (states >> np.uint32(24))[: count - start]
        state = states[-1]
    return out


def measured(work, rounds):
    work()
    times, cpu = [], []
    for _ in range(rounds):
        start, cpu_start = time.perf_counter(), time.process_time()
        result = work()
        cpu.append((time.process_time() - cpu_start) * 1e3)
        times.append((time.perf_counter() - start) * 1e3)
    return (times, cpu), result


def main():
    megapixels = float(sys.argv[1]) if len(sys.argv) > 1 else 12.0
    rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 7
    cv2.setNumThreads(1)
    height_px = max(1, round(megapixels * 1e6 / WIDTH_PX))
    first, second = (
        pixels(height_px * WIDTH_PX * 3, seed).reshape(height_px, WIDTH_PX, 3).astype(np.float32) / 255
        for seed in (1, 2)
    )

    def say(measure, by, version, times, checksum):
        line = {
            "measure": measure,
            "by": by,
            "version": version,
            "megapixels": height_px * WIDTH_PX / 1e6,
            "rounds": rounds,
            "median_ms": statistics.median(times[0]),
            "median_cpu_ms": statistics.median(times[1]),
            "ms": times[0],
            "checksum": float(checksum),
        }
        print(json.dumps(line), flush=True)

    lab = np.empty_like(first)
    times, lab = measured(lambda: cv2.cvtColor(first, cv2.COLOR_RGB2Lab, dst=lab), rounds)
    say("srgb8_to_lab", "opencv", cv2.__version__, times, lab[..., 0].mean(dtype=np.float64))
    other = cv2.cvtColor(second, cv2.COLOR_RGB2Lab)
    # Seconds a round: fewer of them.
    rounds = max(3, rounds // 2)
    times, difference = measured(lambda: deltaE_ciede2000(lab, other), rounds)
    say("delta_e_00", "scikit-image", skimage.__version__, times, difference.mean(dtype=np.float64))


main()
