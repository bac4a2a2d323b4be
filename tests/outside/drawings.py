"""DXF files as ezdxf reads them, each once: whoever changes a drawing reads it himself."""

from functools import lru_cache

import ezdxf


@lru_cache(maxsize=None)
def read(path):
    return ezdxf.readfile(path)
