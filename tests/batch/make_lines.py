"""JSON lines of invented dogs for a pack, by chance from a seed: the same seed gives the same bytes.

As a program: make_lines.py PROGRAM COUNT [SEED] > FILE. A line is also YAML, so that `flinch assess`
reads the same dog.
"""

import json
import random
import subprocess
import sys

BREEDS = ["labrador", "crossbreed", "pug", "Great Dane", "border collie", "dachshund"]
SITES = ["left elbow", "right elbow", "left hip", "spine", "left stifle", "belly"]


def signs_of(program, pack=()):
    done = subprocess.run([program, "signs", "--json", *pack], capture_output=True, check=True)
    return json.loads(done.stdout)


class Maker:
    def __init__(self, signs, seed):
        self.chance = random.Random(seed)
        self.plain = [sign for sign in signs if sign["answer"] in ("yes or no", "steps", "one of")]
        self.of_the_dog = {"age", "weight", "sex", "neutered", "size", "breed"}
        self.plain = [sign for sign in self.plain if sign["name"] not in self.of_the_dog]

    def answer(self, sign):
        if self.chance.random() < 0.1:
            return "can't tell"
        if sign["answer"] == "yes or no":
            return "yes" if self.chance.random() < 0.3 else "no"
        return self.chance.choice(sign["values"])["name"]

    def case(self, number):
        chance = self.chance
        dog = {"species": "dog", "age": f"{chance.randint(1, 14)} years", "weight": f"{chance.randint(3, 60)} kg",
               "breed": chance.choice(BREEDS), "sex": chance.choice(["male", "female"]),
               "neutered": chance.choice(["yes", "no"])}
        asked = chance.sample(self.plain, chance.randint(4, 16))
        answers = {sign["name"]: self.answer(sign) for sign in asked}
        if chance.random() < 0.5:
            answers["tender"] = chance.sample(SITES, chance.randint(1, 2))
        if chance.random() < 0.3:
            answers["temperature"] = f"{chance.randint(370, 415) / 10} C"
        return {"name": f"dog {number}", "dog": dog, "answers": answers}

    def lines(self, count):
        for number in range(count):
            yield json.dumps(self.case(number)) + "\n"


def write_lines(program, path, count, seed=1, bad_every=0):
    """A file of `count` lines, one in `bad_every` of them with a mistake."""
    with open(path, "w", encoding="utf-8") as out:
        for number, line in enumerate(Maker(signs_of(program), seed).lines(count), 1):
            if bad_every and number % bad_every == 0:
                line = line.replace('"answers": {', '"answers": {"limpng": "yes", ', 1)
            out.write(line)


if __name__ == "__main__":
    program, count = sys.argv[1], int(sys.argv[2])
    seed = int(sys.argv[3]) if len(sys.argv) > 3 else 1
    sys.stdout.writelines(Maker(signs_of(program), seed).lines(count))
