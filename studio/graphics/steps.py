"""Steps of a picture: what a frame has no room for must not leave a step in which nothing appears."""

from msgspec.structs import replace

from studio.graphics.scene import Scene


def closed_up(scene: Scene) -> Scene:
    """The scene without its empty steps, the others counted anew."""
    used = sorted({mark.step for mark in scene.marks})
    if used == list(range(len(scene.steps))):
        return scene
    number = {step: order for order, step in enumerate(used)}
    marks = tuple(replace(mark, step=number[mark.step]) for mark in scene.marks)
    return replace(scene, marks=marks, steps=tuple(scene.steps[step] for step in used))
