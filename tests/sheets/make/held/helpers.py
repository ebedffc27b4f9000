NA = {"low": None, "high": None, "concentration_pct": None, "celsius": None, "not_applicable": True}


def ph(low, high=None, conc=None, celsius=None):
    return {"low": low, "high": low if high is None else high, "concentration_pct": conc, "celsius": celsius, "not_applicable": False}


def fill(voice, **words):
    return dict({"national": "", "lgk": "", "wgk": ""}, **words)
