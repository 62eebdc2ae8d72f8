"""The random engine of lakebound, written again from the published description, as an oracle.

Recomputes the numbers that tests/estimate/random_test.cpp pins: the first outputs of xoshiro256++,
the seeding by splitmix64, and the state after a jump. The jump is computed another way than in the
library: as the 2^128-th power of the 256 x 256 matrix of one step over the field of two elements.
"""

MASK = (1 << 64) - 1


def rotate(x, k):
    return ((x << k) | (x >> (64 - k))) & MASK


def output(s):
    return (rotate((s[0] + s[3]) & MASK, 23) + s[0]) & MASK


def step(s):
    a, b, c, d = s
    t = (b << 17) & MASK
    c ^= a
    d ^= b
    b ^= c
    a ^= d
    c ^= t
    d = rotate(d, 45)
    return [a, b, c, d]


def outputs(state, count):
    result = []
    for _ in range(count):
        result.append(output(state))
        state = step(state)
    return result


def splitmix(seed):
    words = []
    for _ in range(4):
        seed = (seed + 0x9E3779B97F4A7C15) & MASK
        z = seed
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & MASK
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & MASK
        words.append(z ^ (z >> 31))
    return words


def pack(s):
    return s[0] | s[1] << 64 | s[2] << 128 | s[3] << 192


def unpack(x):
    return [(x >> (64 * i)) & MASK for i in range(4)]


def jumped(state, log2_steps):
    # columns[i] is where one step takes the state with bit i alone
    columns = [pack(step(unpack(1 << i))) for i in range(256)]

    def apply(matrix, x):
        result = 0
        while x:
            low = x & -x
            result ^= matrix[low.bit_length() - 1]
            x ^= low
        return result

    for _ in range(log2_steps):
        columns = [apply(columns, c) for c in columns]
    return unpack(apply(columns, pack(state)))


EXPECTED_FIRST = [41943041, 58720359, 3588806011781223, 3591011842654386, 9228616714210784205,
                  9973669472204895162, 14011001112246962877, 12406186145184390807,
                  15849039046786891736, 10450023813501588000]

if __name__ == "__main__":
    assert outputs([1, 2, 3, 4], 10) == EXPECTED_FIRST
    # The shortcut through the matrix agrees with honest stepping where that can be done.
    walked = [1, 2, 3, 4]
    for _ in range(1 << 10):
        walked = step(walked)
    assert jumped([1, 2, 3, 4], 10) == walked
    assert splitmix(0)[0] == 0xE220A8397B1DCDAF
    assert outputs(splitmix(0), 2) == [5987356902031041503, 7051070477665621255]
    assert outputs(jumped([1, 2, 3, 4], 128), 2) == [17043750140134683703, 2364973248208838314]
