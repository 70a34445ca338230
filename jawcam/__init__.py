"""jawcam: from a part to proven programs for the jaws that hold it."""

__version__ = "0.3.0"
