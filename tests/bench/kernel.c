/*
 * The daily kernel of src/engine/plan/kernel.ts once more, in C, to measure the other against.
 * Same arithmetic in the same order. Compiled and run by scripts/bench-kernel.ts:
 *
 *   kernel INPUT OUTPUT ROUNDS REPEATS
 *
 * INPUT, all doubles, is written by kernel-cases.ts, which names the fields in this order. OUTPUT: six doubles a
 * case, then two. Standard output: seconds of each repeat of the season and of the balance alone, every case ROUNDS
 * times.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static const double LEAST_WATERING = 0.5;
static const double HAIR = 1e-9;
static const int CHECK_EVERY = 30;

typedef struct { double ball, ring, pad, depletion, ks, et, percolated; } Balance;

typedef struct {
  double first, ballTaw, ballArea;
  double main, ballOnly, full, automatic, efficiency, most, flow, beyondBall, visitMinutes, pourFlow,
      tankLoad, refillMinutes, driveMinutes, padCapacity, padVisitMinutes, kitCost, limited;
  const double *demand, *p, *ringTaw, *ringArea, *joined, *raw, *open, *next, *minutes, *perWeek, *padOpen, *padNext;
} Case;

typedef struct {
  double padRelease, padReserve, padCover, overflowToRing, wage, crewSize, waterPrice;
  const double *rain, *weekOf, *padLeft;
} Place;

typedef struct { double waterings, litres, visits, stressDays, leastKs, cost; } Outcome;

static double stress(double depletion, double taw, double p) {
  double left = taw - depletion, unusable = (1 - p) * taw;
  if (taw <= 0 || left <= 0) return 0;
  return left < unusable ? left / unusable : 1;
}

static void stepDay(Balance *s, double ballTaw, double ringTaw, double p, double demand, double toBall,
                    double toRing, double padGives, double overflowToRing) {
  double ball = s->ball + toBall, ring = s->ring + toRing;
  if (ball < ballTaw && s->pad > 0) {
    double lack = ballTaw - ball, given = (padGives * lack) / ballTaw;
    if (given > lack) given = lack;
    if (given > s->pad) given = s->pad;
    ball += given;
    s->pad -= given;
  }
  double percolated = 0;
  if (ball > ballTaw) {
    double over = ball - ballTaw, caught = ringTaw > 0 ? over * overflowToRing : 0;
    ball = ballTaw;
    ring += caught;
    percolated += over - caught;
  }
  if (ring > ringTaw) {
    percolated += ring - ringTaw;
    ring = ringTaw;
  }
  double taw = ballTaw + ringTaw, held = ball + ring, depletion = taw - held;
  double ks = stress(depletion, taw, p), et = ks * demand;
  if (et > held) et = held;
  double kept = held > 0 ? (held - et) / held : 0;
  s->ball = ball * kept;
  s->ring = ring * kept;
  s->depletion = depletion;
  s->ks = ks;
  s->et = et;
  s->percolated = percolated;
}

static double over0(double x) { return x > 0 ? x : 0; }
static double least(double a, double b) { return a < b ? a : b; }

static Outcome season(const Case *m, const Place *at, int days) {
  Balance s = {m->ballTaw, 0, 0, 0, 1, 0, 0}, ahead = s;
  int first = (int)m->first, week = -1, usedInWeek = 0, dryOn = -1;
  double litres = 0, labour = 0, leastKs = 1;
  int waterings = 0, visits = 0, stressDays = 0;
  s.ring = m->ringTaw[first];
  s.pad = m->padCapacity * at->padLeft[0];
  double covered = m->padCapacity > 0 ? m->ballArea * at->padCover : 0;
  for (int i = first; i < days; i++) {
    if (i > first) s.ring += m->joined[i];
    double capacity = m->padCapacity > 0 ? m->padCapacity * at->padLeft[i - first] : 0;
    if (s.pad > capacity) s.pad = capacity;
    double toBall = 0, toRing = 0;
    int came = 0;
#define LEFT(j) (m->perWeek[j] - (at->weekOf[j] == week ? usedInWeek : 0))
    if (m->main != 0 && m->open[i] == 1 && (m->limited == 0 || LEFT(i) > 0)) {
      int next = (int)m->next[i];
      if (m->limited != 0) while (next < days && LEFT(next) <= 0) next = (int)m->next[next];
      int dry = 0;
      if (s.pad > 0) {
        ahead = s;
        for (int t = i; t < next && !dry; t++) {
          if (t > i) ahead.ring += m->joined[t];
          stepDay(&ahead, m->ballTaw, m->ringTaw[t], m->p[t], m->demand[t], 0, 0, capacity * at->padRelease,
                  at->overflowToRing);
          dry = ahead.depletion + ahead.et > m->raw[t] * (1 + HAIR);
        }
      } else {
        if (dryOn < next) {
          double held = s.ball + s.ring;
          for (dryOn = i; dryOn < days; dryOn++) {
            if (dryOn > i) held += m->joined[dryOn];
            double depletion = m->ballTaw + m->ringTaw[dryOn] - held;
            if (depletion + m->demand[dryOn] > m->raw[dryOn] * (1 + HAIR)) break;
            held -= m->demand[dryOn];
          }
        }
        dry = dryOn < next;
      }
      if (dry) {
        double lackBall = over0(m->ballTaw - s.ball), lackRing = over0(m->ringTaw[i] - s.ring);
        double area = m->ringArea[i];
        double reach = area <= 0 ? 1 : least(1, over0(m->beyondBall / area));
        double water;
        if (m->full != 0) water = m->most;
        else if (m->ballOnly != 0)
          water = least(m->most, (lackBall + (at->overflowToRing > 0 ? lackRing / at->overflowToRing : 0)) /
                                     m->efficiency);
        else water = least(m->most, least((lackBall + lackRing * reach) / m->efficiency, m->flow * m->minutes[i]));
        if (water >= LEAST_WATERING) {
          double arrives = water * m->efficiency;
          if (m->ballOnly != 0) toBall = arrives;
          else {
            double lack = lackBall + lackRing * reach, share = lack > 0 ? lackBall / lack : 0;
            toBall = arrives * share;
            toRing = arrives * (1 - share);
          }
          waterings++;
          litres += water;
          int now = (int)at->weekOf[i];
          usedInWeek = now == week ? usedInWeek + 1 : 1;
          week = now;
          if (m->automatic == 0) {
            labour += m->visitMinutes + water / m->pourFlow + (water / m->tankLoad) * m->refillMinutes;
            came = 1;
          }
        }
      }
    }
    if (m->padCapacity > 0 && m->padOpen[i] == 1 && s.pad < capacity) {
      double lack = over0(m->ballTaw - s.ball - toBall) / m->ballTaw;
      double then = s.pad - capacity * at->padRelease * lack * (m->padNext[i] - i);
      if (then <= at->padReserve * capacity) {
        litres += capacity - s.pad;
        s.pad = capacity;
        labour += m->padVisitMinutes;
        came = 1;
      }
    }
    if (came) {
      visits++;
      labour += m->driveMinutes;
    }
    double rain = at->rain[i];
    if (rain > 0) {
      toBall += rain * (m->ballArea - covered);
      toRing += rain * (m->ringArea[i] + covered);
    }
    stepDay(&s, m->ballTaw, m->ringTaw[i], m->p[i], m->demand[i], toBall, toRing, capacity * at->padRelease,
            at->overflowToRing);
    if (s.ks < 1 - HAIR) stressDays++;
    if (s.ks < leastKs) leastKs = s.ks;
  }
  double checks = m->automatic != 0 ? ceil((double)(days - first) / CHECK_EVERY) : 0;
  labour += checks * (m->visitMinutes + m->driveMinutes);
  Outcome out = {waterings, litres, visits + checks, stressDays, leastKs,
                 m->kitCost + (labour / 60) * at->wage * at->crewSize + (litres / 1000) * at->waterPrice};
  return out;
}

typedef struct { double held, used; } Held;

/* The balance alone, nothing decided: every third day a third of each store is poured on. */
static Held balance(const Case *m, int days) {
  int first = (int)m->first;
  Balance s = {m->ballTaw, m->ringTaw[first], 0, 0, 1, 0, 0};
  double used = 0;
  for (int i = first; i < days; i++) {
    int pour = i % 3 == 0;
    s.ring += m->joined[i];
    stepDay(&s, m->ballTaw, m->ringTaw[i], m->p[i], m->demand[i], pour ? m->ballTaw / 3 : 0,
            pour ? m->ringTaw[i] / 3 : 0, 0, 0.5);
    used += s.et;
  }
  Held end = {s.ball + s.ring, used};
  return end;
}

static double seconds(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return t.tv_sec + t.tv_nsec * 1e-9;
}

int main(int argc, char **argv) {
  if (argc != 5) return 2;
  FILE *in = fopen(argv[1], "rb"), *out = fopen(argv[2], "wb");
  if (!in || !out) return 2;
  fseek(in, 0, SEEK_END);
  size_t length = ftell(in) / sizeof(double);
  rewind(in);
  double *data = malloc(length * sizeof(double));
  if (fread(data, sizeof(double), length, in) != length) return 2;
  fclose(in);

  const double *at = data;
  int days = (int)*at++, cases = (int)*at++;
  Place place;
  memcpy(&place, at, 7 * sizeof(double));
  at += 7;
  const double **arrays[] = {&place.rain, &place.weekOf, &place.padLeft};
  for (int k = 0; k < 3; k++, at += days) *arrays[k] = at;
  Case *all = malloc(cases * sizeof(Case));
  for (int c = 0; c < cases; c++) {
    memcpy(&all[c], at, 20 * sizeof(double));
    at += 20;
    for (int k = 0; k < 12; k++, at += days) (&all[c].demand)[k] = at;
  }
  Outcome *ends = malloc(cases * sizeof(Outcome));
  Held *held = malloc(cases * sizeof(Held));
  int rounds = atoi(argv[3]), repeats = atoi(argv[4]);
  for (int r = 0; r < repeats; r++) {
    double start = seconds();
    for (int k = 0; k < rounds; k++)
      for (int c = 0; c < cases; c++) ends[c] = season(&all[c], &place, days);
    double middle = seconds();
    for (int k = 0; k < rounds; k++)
      for (int c = 0; c < cases; c++) held[c] = balance(&all[c], days);
    printf("%.6f %.6f\n", middle - start, seconds() - middle);
  }
  fwrite(ends, sizeof(Outcome), cases, out);
  fwrite(held, sizeof(Held), cases, out);
  fclose(out);
  return 0;
}
