"""The hands that write moving pictures: a folder of PNG files, or one movie file through PyAV (the extra ``clips``).

YUV is BT.709 (ITU-R BT.709-6): its matrix, limited range, and the tags primaries 1, transfer 1, matrix 1 of
ITU-T H.273 in the stream. One thread and no dates, so that equal clips give equal bytes.
"""

import contextlib
from collections.abc import Generator, Iterator
from contextlib import closing
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO, cast

import msgspec
import numpy as np

from studio.graphics.color import rgba
from studio.graphics.motion import Clip
from studio.graphics.paint import png
from studio.graphics.paint.clip import Pixels, spans
from studio.model.rate import RATES

if TYPE_CHECKING:
    import av
    from av.container import OutputContainer
    from av.video.stream import VideoStream

FRAME_NAME = "frame_%05d.png"  # counted from 1
_BT709 = 1
_LIMITED = 1
_BITEXACT_CODEC, _BITEXACT_FILE = 1 << 23, 0x400
_COPIED = 1 << 20


class Codec(msgspec.Struct, frozen=True, kw_only=True):
    """How a kind of movie is encoded. In an ``intra`` one each frame stands alone, so a held one is written again."""

    container: str
    encoder: str
    pixels: str
    clear_pixels: str
    options: dict[str, str] = {}
    intra: bool = False


CODECS: dict[str, Codec] = {
    # A fixed quantiser of 2: within 5 of 255 levels of what was drawn at the rate that 4444 is meant for (some 280 Mb/s
    # at 1080p and 30000/1001), and five times faster than a rate that is held.
    "prores": Codec(
        container="mov", encoder="prores_ks", pixels="yuva444p10le", clear_pixels="yuva444p10le", intra=True,
        options={"profile": "4", "alpha_bits": "16", "vendor": "apl0", "flags": "+qscale", "global_quality": "236"},
    ),
    "qtrle": Codec(container="mov", encoder="qtrle", pixels="rgb24", clear_pixels="argb"),
    "webm": Codec(
        container="webm", encoder="libvpx-vp9", pixels="yuv420p", clear_pixels="yuva420p",
        options={"crf": "16", "b": "0", "deadline": "realtime", "cpu-used": "6", "auto-alt-ref": "0", "row-mt": "0"},
    ),
    "mp4": Codec(
        container="mp4", encoder="libx264", pixels="yuv420p", clear_pixels="yuv420p",
        options={"crf": "16", "preset": "veryfast"},
    ),
}  # fmt: skip


def write_pngs(clip: Clip, folder: Path) -> Generator[int, None, str]:
    """Write each frame into ``folder``; yields how many there are so far, returns the hash of all their bytes."""
    digest, done = sha256(), 0
    with closing(spans(clip)) as all_spans:
        for span in all_spans:
            content = _png(span.pixels)
            for _ in range(span.frames):
                done += 1
                (folder / (FRAME_NAME % done)).write_bytes(content)
                digest.update(content)
                yield done
    return digest.hexdigest()


def write_movie(clip: Clip, movie: str, stream: BinaryIO, ground: str) -> Generator[int, None, None]:
    """Write the clip as one file; yields how many frames are done. ``ground`` is the look's ground.

    Where nothing shows, lossy kinds get that ground's colour below: edges then have no dark fringe.
    """
    with closing(Encoder(clip, CODECS[movie], stream, ground)) as encoder, closing(spans(clip)) as all_spans:
        for span in all_spans:
            yield from encoder.add(span.pixels, span.frames)
        encoder.finish()


class Encoder:
    """One movie file while it is written."""

    def __init__(self, clip: Clip, codec: Codec, stream: BinaryIO, ground: str) -> None:
        import av

        self.codec, self.rate, self.done = codec, RATES[clip.rate], 0
        clear = clip.scene.background is None or rgba(clip.scene.background)[3] < 255
        self.format = codec.clear_pixels if clear else codec.pixels
        self.ground = rgba(ground)[:3] if clear and self.is_yuv else None
        self.container: OutputContainer = av.open(stream, "w", format=codec.container)
        self.container.flags |= _BITEXACT_FILE
        stream_ = self.container.add_stream(codec.encoder, rate=self.rate, options=codec.options)
        self.stream = cast("VideoStream", stream_)
        self._set_up(clip)

    def _set_up(self, clip: Clip) -> None:
        stream, context = self.stream, self.stream.codec_context
        stream.width, stream.height = clip.scene.frame.width, clip.scene.frame.height
        stream.pix_fmt = self.format
        stream.time_base = context.time_base = 1 / self.rate
        context.thread_count = 1
        context.flags |= _BITEXACT_CODEC
        context.gop_size = 1 if self.codec.intra else round(self.rate)  # a whole frame each second, to find one's place
        context.color_primaries = context.color_trc = context.colorspace = _BT709
        if self.is_yuv:
            context.color_range = _LIMITED

    @property
    def is_yuv(self) -> bool:
        return self.format.startswith("yuv")

    def add(self, pixels: Pixels, times: int) -> Iterator[int]:
        """Encode a picture for as many frames as it stands."""
        picture = self._picture(pixels)
        packets: list[bytes] = []
        for order in range(times):
            if order and self.codec.intra:
                self._again(packets)
            else:
                picture.pts = self.done
                packets = self._mux(picture)
            self.done += 1
            yield self.done

    def finish(self) -> None:
        """Write what the encoder still holds."""
        self._mux(None)
        self.container.close()

    def close(self) -> None:
        """Let go of the file; one that is not finished is nobody's, so what closing it says does not matter."""
        with contextlib.suppress(Exception):
            self.container.close()

    def _picture(self, pixels: Pixels) -> "av.VideoFrame":
        import av

        if self.ground is not None:
            pixels = np.where(pixels[..., 3:] == 0, np.array((*self.ground, 0), np.uint8), pixels)
        picture = av.VideoFrame.from_ndarray(pixels, format="rgba")
        if self.is_yuv:
            picture = picture.reformat(
                format=self.format, src_colorspace="ITU709", dst_colorspace="ITU709", src_color_range="JPEG",
                dst_color_range="MPEG", dst_color_trc=_BT709, dst_color_primaries=_BT709,
            )  # fmt: skip
        else:
            picture = picture.reformat(format=self.format)
        picture.time_base = 1 / self.rate
        return picture

    def _mux(self, picture: "av.VideoFrame | None") -> list[bytes]:
        written = []
        for packet in self.stream.encode(picture):
            if self.codec.intra:
                written.append(bytes(packet))
            self.container.mux(packet)
        return written

    def _again(self, packets: list[bytes]) -> None:
        import av

        for content in packets:
            packet = av.Packet(content)
            packet.stream, packet.time_base = self.stream, 1 / self.rate
            packet.pts = packet.dts = self.done
            packet.duration, packet.is_keyframe = 1, True
            self.container.mux(packet)


def file_hash(path: Path) -> str:
    """The SHA-256 of a file of any size."""
    digest = sha256()
    with path.open("rb") as stream:
        while block := stream.read(_COPIED):
            digest.update(block)
    return digest.hexdigest()


def _png(pixels: Pixels) -> bytes:
    height, width = pixels.shape[:2]
    return png.encode(memoryview(pixels.tobytes()), width, height, 4 * width)
