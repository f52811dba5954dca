"""Words of degree: what an item's facts say of how much, in the words that the pack has for it.

The items were mapped when the pack had one word for a little and for much. `ROWS` is the fixed list by which a mild form
takes the place of the danger sign and a grave form comes beside the common one; it was made with the learning half and
the vocabulary in view and is applied to both halves alike, fact by fact. An item in which no row finds its words stays as
it was mapped."""
import re

LITTLE = r"\b(small|little|slight|slightly|few|drops?|specks?|spots?|streaks?|traces?|tinged?|mild|minor)\b"
AFTER_OPERATION = r"\b(operation|operated|surgery|spay|spayed|neuter|neutered|anaesthetic|anaesthesia|anesthesia)\b"
NOT_WELL = r"\b(days|dull|letharg\w*|weak\w*|sick|vomit\w*|unwell)\b"
STOPPED = r"\b(stopped|stops|stopped by itself|brief|briefly|over within|ended)\b"


def told(words):
    """The words, and not denied before: "without other severe signs" names no degree."""
    return rf"^(?!.*\b(no|not|without|never)\b.*\b({words})\b).*\b({words})\b"


# sign, its answer, words that must stand in one fact, words that may stand in none, the answers that take its place
ROWS = [
    ("bloody_stool", True, [LITTLE, r"\bblood"], [r"\b(jelly|watery|bloody diarrhoea)\b"], {"stool_streak": True}),
    ("nose_bleeds", True, [rf"{LITTLE}|{STOPPED}", r"\b(nosebleed|nose|nostril)"], [r"\b(again|repeated|returns|keeps)\b"],
     {"nose_spotted": True}),
    ("operation_wound", "oozing", [LITTLE, r"\b(ooze|oozes|oozing|fluid|seeps?|seepage|discharge|wetness|bleeding|drainage)\b"],
     [r"\b(pus|green|smell|smelly)\b"], {"operation_wound": "damp"}),
    ("appetite", "less", [r"\b(skip\w*|miss\w*) (a|one|an odd|the odd|a single) ?(odd )?meal\b"], [NOT_WELL], {"meal_left_else_well": True}),
    ("appetite", "nothing", [r"\b(skip\w*|miss\w*) (a|one|an odd|the odd|a single) ?(odd )?meal\b"], [NOT_WELL], {"meal_left_else_well": True}),
    ("temperature_told", "raised", [r"\b(mild|slight|slightly|low-grade|low grade|a little)\b"], [], {"temperature_told": "slight"}),
]
# the same, but the words may stand in several facts: what happened stands in one, what is seen in another
SPREAD = [
    ("lethargic", True, [AFTER_OPERATION, r"\b(sleepy|sleeps|drowsy|groggy|tired|quiet|dull|subdued|wobbly|lethargic|lethargy)\b"],
     [r"\b(days|week|weeks|collapse\w*|pale)\b"], {"drowsy_after_operation": True, "recent_surgery": True}),
    ("discharge_vulva", True, [r"\b(in season|in heat|on heat|season|heat)\b", r"blood|bleed|spotting|red"],
     [r"\b(after|weeks|pus|foul|smell\w*)\b"], {"bleeds_in_season": True}),
    ("discharge_vulva", True, [r"\b(birth|whelp\w*|pups|puppies|litter)\b", r"brown|red|dark"], [r"\b(foul|smell\w*|green|black|much|pus)\b"],
     {"discharge_after_birth": True}),
    ("blood_from_mouth", True, [r"\b(milk teeth|milk tooth|baby teeth|teething|losing teeth)\b"], [], {"teething_blood": True}),
    ("soils_without_knowing", True, [r"\b(asleep|sleep|sleeps|sleeping|at rest)\b"], [r"\bstool\b"], {"leaks_asleep": True}),
]
# sign, its answer, words that must stand in one fact, the answers that come beside it
GRAVE = [
    ("coughs", True, [r"\b(continuous|continuously|constant|constantly|nonstop|non-stop|without (a )?stop)", r"\bcough"],
     {"coughs_on": True}),
    ("drinks_less", True, [r"\b(refus\w+ (to drink|water|all water)|drinks nothing|(does|will) not drink|not drinking|no water)\b"],
     {"drinks_nothing": True}),
    ("bloody_stool", True, [r"\b(only blood|nothing but blood|pure blood|much blood|a lot of blood|large amounts? of blood)\b"],
     {"stool_all_blood": True}),
    ("urine_often", True, [r"\b(little or no|little or none|no urine|only drops|nothing comes)\b"], {"no_urine": True}),
    ("lethargic", True, [told("extreme|extremely|severe|profound"), r"letharg|dull|weak|depress"], {"awareness": "slow"}),
    ("cries_out", True, [told("(severe|extreme|great|unbearable) pain")], {"pain_degree": "unbearable"}),
    ("diarrhoea", True, [told("severe|profuse|explosive"), r"diarrh"], {"loose_stools": "pouring"}),
    ("vomiting", True, [told("severe|violent|profuse"), r"vomit"], {"vomited_times": "many"}),
    ("itches", True, [r"\b(itch\w*|scratch\w*|bit(es|ing)|chew\w*)", told(r"raw|bleed\w*|bloody|broken|injury|no rest|nobody rest")],
     {"itches_raw": True}),
]
GOES_WITH = {"bleeds_in_season": ["discharge_kind"], "discharge_after_birth": ["discharge_kind"],
             "drowsy_after_operation": ["unsteady", "unwell", "appetite"]}


def with_degree(entry):
    """The item's answers with every mild and grave form that its facts name; the same object where none does."""
    mapped, facts = entry["mapped"], entry.get("facts") or [entry["sign"]]
    for sign, answer, needs, beside in GRAVE:
        if mapped.get(sign) == answer and any(all(re.search(need, fact) for need in needs) for fact in facts):
            mapped = {**mapped, **{name: value for name, value in beside.items() if name not in mapped}}
    for rows, texts in ((ROWS, facts), (SPREAD, ["; ".join(facts)])):
        for sign, answer, needs, bars, becomes in rows:
            if mapped.get(sign) != answer or any(re.search(bar, fact) for bar in bars for fact in facts):
                continue
            if not any(all(re.search(need, text) for need in needs) for text in texts):
                continue
            gone = {sign, *(other for new in becomes for other in GOES_WITH.get(new, []))}
            mapped = {**{name: value for name, value in mapped.items() if name not in gone}, **becomes}
    return mapped
