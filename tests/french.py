"""A little French of our own, for tests that shall not lean on the catalogue that ships."""

from __future__ import annotations

from sootsayer import catalogue_numbers as numbers
from sootsayer.console import heard_texts as h
from tests.words.told import Told

FRENCH = Told(
    {
        numbers.PER_CENT: "{number}\u00a0%",
        "rpm": "tr/min",
        "mg/stroke": "mg/coup",
        "C": "°C",
        "days": "jours",
        "yes": "oui",
        "no": "non",
        "scan": "outil",
        "arrival": "arrivée",
        "after-clean": "après-nettoyage",
        "scan tool": "outil de diagnostic",
        "do not know": "ne sait pas",
        "cannot": "impossible",
        "{slot} {typed}: written, entry {entry}.": "{slot} {typed} : écrit, entrée {entry}.",
        h.YES: "| oui | o |",
        h.NO: "| non |",
        h.DO_NOT_KNOW: "| ne sait pas | inconnu |",
        h.CANNOT: "| impossible |",
        h.LATER: "| plus tard |",
        h.AT: "| à | au |",
        h.RPM: "| tr | min |",
        h.SMALL: "| le | la | les | l | un | une | du | de | d | à | au | sur | et |",
        h.SOURCE["gauge"]: "| manomètre | mano |",
        h.SOURCE["customer"]: "| client |",
        h.GO_ON: "| continuer |",
        h.DONE: "| fini |",
        h.BACK: "| retour |",
        h.BACK_TO: "| retour |",
        h.SHOW: "| voir |",
        h.ANSWERS: "| réponses |",
        h.FACTS: "| faits |",
        h.ROUND: "| série |",
        h.FORGET: "| oublier |",
        h.CHANGE: "| changer |",
        h.SLIP: "| erreur |",
        h.COMPLETE: "| complet |",
        h.PARTIAL: "| partiel |",
        h.MONITORS: "| moniteurs |",
        h.HAVE: "| ont |",
        h.RUN: "| tourné |",
        h.NOT_RUN: "| pas tourné | n'ont pas tourné |",
        h.WARM_UPS: "| mises en température |",
        h.NEW: "| nouveau |",
        h.NONE: "| aucun |",
        h.ABOVE: "| au-dessus de | plus de |",
        h.AT_LEAST: "| au moins |",
        h.BETWEEN: "| entre |",
        h.JOINS_TWO: "| et | à |",
        h.TO: "| à |",
        h.OF: "| sur |",
        h.WORDS_OF["often"]: "| souvent |",
        h.WORDS_OF["usually"]: "| d'habitude |",
    }
)
