"""A drawing to scale as a scene, with terminal and SVG renderers."""
