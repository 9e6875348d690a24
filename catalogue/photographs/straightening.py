"""The part of a picture within four corners, pulled straight by Pillow's perspective transform."""

from __future__ import annotations

from PIL import Image

from catalogue.photographs.homography import Corners, homography


def frame_of(width: float, height: float) -> Corners:
    """Return the corners of an upright rectangle at the origin, clockwise from the top left."""
    return (0.0, 0.0), (float(width), 0.0), (float(width), float(height)), (0.0, float(height))


def straightened(
    picture: Image.Image,
    corners: Corners,
    size: tuple[int, int],
    resampling: Image.Resampling = Image.Resampling.BICUBIC,
) -> Image.Image:
    """Return what lies within the corners as a picture of this size, in RGB."""
    back = homography(frame_of(*size), corners)
    return picture.convert("RGB").transform(
        size,
        Image.Transform.PERSPECTIVE,
        [float(value) for value in back.ravel()[:8]],
        resampling,
    )
