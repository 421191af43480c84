using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using CsCheck;
using static Broodtide.Workbench.Tests.KeptJournal;
using static Broodtide.Workbench.Tests.Population.LarvalStory;

namespace Broodtide.Workbench.Tests.Population;

/// <summary>Journals by chance, with slips and nonsense among them.</summary>
public class RandomJournalTests
{
    private static Gen<T> Any<T>(params T[] some) => Gen.OneOf([.. some.Select(Gen.Const)]);

    private static readonly Gen<VesselId> Vessels = Any(JarA, JarB, new VesselId(Fixed(61)));
    private static readonly Gen<CohortId> Cohorts = Any(First, Second, new CohortId(Fixed(62)));

    private static readonly Gen<int> Numbers = Gen.Frequency(
        (8, Gen.Int[0, 300]),
        (1, Gen.Int[-10, 3]),
        (1, Any(0, 100_000, int.MaxValue, int.MinValue))
    );

    private static readonly Gen<int?> MaybeNumbers = Gen.Frequency(
        (3, Numbers.Select(number => (int?)number)),
        (1, Gen.Const((int?)null))
    );

    private static readonly Gen<double> Amounts = Gen.Frequency(
        (6, Gen.Double[0.05, 1]),
        (1, Gen.Double[0, 40]),
        (1, Any(0.0, -1, 1e-9, 1e6))
    );

    private static readonly Gen<CountMethod> Methods = Gen.Enum<CountMethod>();

    private static readonly Gen<string> Stages = Any("Z1", "Z2", "z5", "Z8", "Z9", "PL", "Z12", "");

    private static readonly Gen<Fact> Counts = Gen.Select(
            Vessels,
            Methods,
            Gen.Select(Numbers, Amounts).Array[0, 4],
            Gen.Bool,
            Cohorts,
            Gen.Int[0, 4]
        )
        .Select(
            (vessel, method, samples, again, cohort, which) =>
                (Fact)
                    new CountMade(
                        vessel,
                        method,
                        [
                            .. samples.Select(sample => new Aliquot(
                                sample.Item1,
                                which == 0 ? null : Litres(sample.Item2)
                            )),
                        ],
                        which == 1 ? cohort : null,
                        which == 2,
                        again
                    )
        );

    private static readonly Gen<Fact> Facts = Gen.Frequency(
        (
            4,
            Gen.Select(Cohorts, Vessels, MaybeNumbers, Methods)
                .Select((cohort, vessel, number, method) => (Fact)Into(cohort, vessel, number, method))
        ),
        (6, Counts),
        (
            3,
            Gen.Select(Vessels, Gen.Select(Stages, Numbers).Array[0, 4])
                .Select(
                    (vessel, tallies) =>
                        (Fact)
                            new StageSampleTaken(
                                vessel,
                                [.. tallies.Select(tally => new StageTally(tally.Item1, tally.Item2))]
                            )
                )
        ),
        (
            2,
            Gen.Select(Vessels, Vessels, Cohorts.Array[0, 2], MaybeNumbers, Gen.Bool)
                .Select(
                    (from, to, cohorts, number, all) =>
                        (Fact)new CohortsMoved(from, to, all ? null : cohorts, number)
                )
        ),
        (
            2,
            Gen.Select(Cohorts, Vessels, Vessels, MaybeNumbers)
                .Select((cohort, from, to, number) => (Fact)new CohortSplit(cohort, from, to, number))
        ),
        (
            1,
            Gen.Select(Vessels, Cohorts.Array[0, 3], Cohorts)
                .Select((vessel, cohorts, into) => (Fact)new CohortsMerged(vessel, cohorts, into))
        ),
        (1, Gen.Select(Vessels, Numbers).Select((vessel, number) => (Fact)new DeadRemoved(vessel, number))),
        (
            1,
            Gen.Select(Vessels, MaybeNumbers)
                .Select((vessel, number) => (Fact)new SettlementSeen(vessel, number))
        ),
        (
            1,
            Gen.Select(Vessels, Vessels, MaybeNumbers)
                .Select((from, to, number) => (Fact)new JuvenilesReturned(from, to, number))
        ),
        (
            1,
            Gen.Select(Vessels, Numbers)
                .Select((vessel, number) => (Fact)new JuvenilesGivenAway(vessel, number))
        ),
        (
            2,
            Gen.Select(Vessels, Gen.Double[-10, 60])
                .Select(
                    (vessel, celsius) =>
                        (Fact)
                            new ReadingTaken(TypedNumber.Of(celsius, "Cel"), vessel, SampleTemperature: null)
                )
        ),
        (1, Vessels.Select(vessel => (Fact)new VesselEmptied(vessel))),
        (1, Gen.Const((Fact)new RunEnded(Run1, RunEnd.GivenUp)))
    );

    [Fact]
    public void No_journal_breaks_an_estimate() =>
        Gen.Select(Gen.Select(Gen.Double[-2, 60], Facts).Array[1, 14], Gen.Double[1, 70], Gen.Int)
            .Sample(
                (facts, now, seed) =>
                {
                    var story = new LarvalStory().Tell(0, Into(First, JarA, 150));
                    foreach (var (day, fact) in facts)
                    {
                        story.TellIfTaken(day, fact);
                    }

                    var entries = story.Entries.ToArray();
                    new Random(seed).Shuffle(entries);
                    var outlook = Outlook.Of(Account.Of(entries), Day(now), Zone);
                    foreach (var population in outlook.Populations)
                    {
                        Sound.Check(population.Estimate([Day(now / 2), Day(now + 20)]));
                    }
                },
                iter: 60
            );
}
