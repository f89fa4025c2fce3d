"""A stomach illness of a day and a half, told in the facts of the protocol: what is true from which hour on.

An entry stands for the round at that hour. What it does not name is as before. A list is said one after the other, and its last
stays. A pair is a reading in mg/dL and in mmol/L.

Drinks by hand, after the 4-2-1 rule (Holliday and Segar 1957): 21 kg is 40 + 20 + 1 = 61 mL each hour, for two hours 122 mL,
measured in steps of 5 mL: 120 mL.
"""

WEIGHT = "21 kg"
TWO_HOURS = "120 mL"
# Source: Children's Hospital of Philadelphia, pump: ketone instructions: 1 ounce (29.57 mL) each hour for each year, at 6 years 177 mL; the set says 175.
TWO_HOURS_WITH_KETONES = "350 mL"
GOOD_CHECKS = 3

HOME, CLINIC, CLINIC_NOW = "home", "clinic", "clinic-now"

# Before the first round, and all day.
ALWAYS = {
    "awake": "yes", "already-given": "no", "breathing": "usual", "drowsy": "no", "what-is-wrong": "stomach",
    "belly-pain": "no", "diarrhea": "1", "dehydrated": "no", "fever": "no", "meals-missed": "1", "supplies-low": "no",
    "sick-since": "today", "reading-from": "meter", "swallow": "yes", "symptoms": "no", "meal-soon": "no",
    "last-rapid-insulin": "5 h", "rescue-given": "no", "exercised": "no", "clinic-said": "stay", "vomiting-since": "40 min",
    "bedtime": "no",
}

# hour: what is so at the round of that hour; `plan` is the urgency of the plan that the round ends with.
HOURS = [
    (0, {"glucose": ("196", "10,9"), "ketones": "0.3", "vomits": "1", "drinking": "little", "plan": HOME}),
    (2, {"glucose": ("168", "9,3"), "ketones": "0.4", "vomits": "2", "plan": HOME, "calls": 1}),
    (4, {"glucose": ("142", "7,9"), "vomits": "0", "plan": HOME}),
    (6, {"glucose": ("118", "6,5"), "ketones": "0.3", "plan": HOME, "killed": "waiting"}),
    (8, {"glucose": [("62", "3,4"), ("88", "4,9")], "drinking": "yes", "plan": HOME, "visits": "low"}),
    (10, {"glucose": ("131", "7,3"), "drinking": "little", "plan": HOME, "killed": "asked"}),
    (12, {"glucose": ("174", "9,7"), "drinking": "yes", "plan": HOME}),
    (14, {"glucose": ("231", "12,8"), "ketones": "0.9", "plan": CLINIC_NOW, "visits": "ketones", "calls": 1}),
    (16, {"glucose": ("205", "11,4"), "ketones": "0.4", "plan": None}),  # coming down: only "keep drinking" until the next
    (18, {"glucose": ("171", "9,5"), "ketones": "0.3", "plan": HOME}),
    (20, {"glucose": ("149", "8,3"), "drinking": "little", "plan": HOME}),
    (22, {"glucose": ("138", "7,7"), "drinking": "yes", "plan": HOME}),
    (24, {"glucose": ("144", "8,0"), "plan": HOME}),
    (26, {"glucose": ("152", "8,4"), "vomits": "1", "vomiting-since": "20 min", "plan": HOME}),
    (28, {"glucose": ("127", "7,1"), "vomits": "0", "drinking": "little", "plan": HOME}),
    (30, {"glucose": ("133", "7,4"), "drinking": "little", "plan": HOME}),
    (32, {"glucose": ("140", "7,8"), "drinking": "yes", "plan": HOME}),
    (34, {"glucose": ("136", "7,6"), "plan": HOME}),
    (36, {"glucose": ("121", "6,7"), "plan": None}),
]
