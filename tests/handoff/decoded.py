"""Run by itself: what another program finds in a movie file, as JSON.

A ring is expected whose rubber lies in the middle of the width, a fifth from the top.
"""

import json
import sys
from collections.abc import Iterator
from hashlib import sha256

import av
import numpy as np


def decoded(path: str) -> dict[str, object]:
    """Size, rate, length, tags, and of the first and last frames their pixels' hash, corner and middle."""
    with av.open(path) as container:
        stream = container.streams.video[0]
        context = stream.codec_context
        found = {
            "codec": context.name, "width": context.width, "height": context.height, "rate": str(stream.average_rate),
            "duration": None if stream.duration is None else str(stream.duration * stream.time_base),
            "tags": [context.color_primaries, context.color_trc, context.colorspace], "range": context.color_range,
            "keys": sum(packet.is_keyframe for packet in container.demux(stream) if packet.size),
        }  # fmt: skip
    frames = list(pictures(path))
    times = [int(frame.pts * frame.time_base * 1000) for frame in (frames[0], frames[-1])]
    ends = [frame.to_ndarray(format="rgba") for frame in (frames[0], frames[-1])]
    found |= {"frames": len(frames), "pixels": frames[-1].format.name, "times_ms": times}
    for name, pixels in zip(("first", "last"), ends, strict=True):
        height, width = pixels.shape[:2]
        tire = pixels[round(0.2 * height), width // 2]
        found[name] = {"sha256": sha256(pixels.tobytes()).hexdigest(), "corner": pixels[2, 2].tolist(),
                       "tire": tire.tolist(), "alphas": np.unique(pixels[..., 3])[[0, -1]].tolist()}  # fmt: skip
    found["planes"] = [value_at(frames[0], plane) for plane in range(len(frames[0].planes))]
    return found


def pictures(path: str) -> Iterator[av.VideoFrame]:
    """The frames, VP9's alpha included, which FFmpeg's own decoder leaves out."""
    with av.open(path) as container:
        stream = container.streams.video[0]
        if stream.codec_context.name != "vp9":
            yield from container.decode(stream)
            return
        decoder = av.CodecContext.create("libvpx-vp9", "r")
        for packet in container.demux(stream):
            for frame in decoder.decode(packet if packet.size else None):
                frame.time_base = stream.time_base
                yield frame


def value_at(frame: av.VideoFrame, plane: int) -> float:
    """A plane's code near the upper left corner."""
    kind = np.uint16 if frame.format.components[0].bits > 8 else np.uint8
    return float(np.frombuffer(frame.planes[plane], kind)[4])


if __name__ == "__main__":
    print(json.dumps(decoded(sys.argv[1])))
