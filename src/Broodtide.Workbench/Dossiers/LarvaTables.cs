using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using static Broodtide.Workbench.Dossiers.SharedColumns;

namespace Broodtide.Workbench.Dossiers;

/// <summary>The tables of larvae and juveniles: crossings, counts, stages, and what became of some.</summary>
internal static class LarvaTables
{
    public static DataTable Crossings(Dossier dossier) =>
        new(
            "crossings",
            "Crossings",
            "One row a crossing of larvae from fresh to salt water.",
            [
                EntryColumn,
                FromColumn,
                ToColumn,
                new("run", ColumnType.Text, "Identity of the run; empty for larvae of another brood."),
                VesselColumn,
                new("cohort", ColumnType.Text, "Identity of the cohort they form.", Required: true),
                new("larvae", ColumnType.Integer, "How many, as counted or guessed.", "1"),
                new("method", ColumnType.Text, "How the number was made.", Codes: Cell.Words<CountMethod>()),
                new("brackish_min", ColumnType.Number, "Minutes spent between fresh and sea water.", "min"),
                new(
                    "entered_salinity",
                    ColumnType.Number,
                    "The salinity they entered, as typed; its unit beside it."
                ),
                new(
                    "entered_salinity_unit",
                    ColumnType.Text,
                    "The unit, as a UCUM code or a code of the journal."
                ),
            ],
            [
                .. Told<CrossingMade>(dossier)
                    .Select(pair =>
                        (IReadOnlyList<string>)
                            [
                                .. When(pair.Occurrence),
                                Cell.Of(dossier.Outlook.House.RunOf(pair.Fact.Brood)?.Id.Value),
                                Cell.Of(pair.Fact.To.Value),
                                Cell.Of(pair.Fact.Cohort.Value),
                                Cell.Of(pair.Fact.Number),
                                Cell.Word(pair.Fact.Method),
                                Cell.Of(pair.Fact.BrackishMinutes.AsMinutes()),
                                Cell.Of(pair.Fact.EnteredSalinity?.Value),
                                pair.Fact.EnteredSalinity?.Unit ?? "",
                            ]
                    ),
            ]
        );

    public static DataTable Counts(Dossier dossier) =>
        new(
            "counts",
            "Counts",
            "One row a sample of a count: a whole look is one sample, an aliquot count has several. Seen is not alive.",
            [
                EntryColumn,
                FromColumn,
                ToColumn,
                VesselColumn,
                new("cohort", ColumnType.Text, "Identity of the cohort, where one was meant."),
                new(
                    "method",
                    ColumnType.Text,
                    "How it was counted.",
                    Codes: Cell.Words<CountMethod>(),
                    Required: true
                ),
                new(
                    "sample",
                    ColumnType.Integer,
                    "Running number of the sample, from 1.",
                    "1",
                    Required: true
                ),
                new("seen", ColumnType.Integer, "How many were seen.", "1", Required: true),
                new("sample_volume_ml", ColumnType.Number, "The volume counted through.", "mL"),
                new("in_dark", ColumnType.YesNo, "Whether it was dark but for the lamp."),
            ],
            [
                .. Told<CountMade>(dossier)
                    .SelectMany(pair =>
                        pair.Fact.Samples.Select(
                            (sample, place) =>
                                (IReadOnlyList<string>)
                                    [
                                        .. When(pair.Occurrence),
                                        Cell.Of(pair.Fact.Vessel.Value),
                                        Cell.Of(pair.Fact.Cohort?.Value),
                                        Cell.Word<CountMethod>(pair.Fact.Method),
                                        Cell.Of(place + 1),
                                        Cell.Of(sample.Seen),
                                        Cell.Of(sample.Volume.AsVolume()?.Millilitres),
                                        Cell.Of(pair.Fact.InDark),
                                    ]
                        )
                    ),
            ]
        );

    public static DataTable Stages(Dossier dossier) =>
        new(
            "stages",
            "Stages under the microscope",
            "One row a stage of a sample.",
            [
                EntryColumn,
                FromColumn,
                ToColumn,
                VesselColumn,
                new("cohort", ColumnType.Text, "Identity of the cohort, where one was meant."),
                new("stage", ColumnType.Text, "Stage, as the species profile names it.", Required: true),
                new("larvae", ColumnType.Integer, "How many of the sample.", "1", Required: true),
            ],
            [
                .. Told<StageSampleTaken>(dossier)
                    .SelectMany(pair =>
                        pair.Fact.Stages.Select(tally =>
                            (IReadOnlyList<string>)
                                [
                                    .. When(pair.Occurrence),
                                    Cell.Of(pair.Fact.Vessel.Value),
                                    Cell.Of(pair.Fact.Cohort?.Value),
                                    tally.Stage,
                                    Cell.Of(tally.Number),
                                ]
                        )
                    ),
            ]
        );

    public static DataTable Tallies(Dossier dossier) =>
        new(
            "tallies",
            "Dead, settled, returned",
            "One row a number of larvae or juveniles that died, settled, went back to fresh water or went away.",
            [
                EntryColumn,
                FromColumn,
                ToColumn,
                VesselColumn,
                new(
                    "what",
                    ColumnType.Text,
                    "What became of them.",
                    Codes: ["collected", "dead", "settled", "returned", "juveniles-counted", "given-away"],
                    Required: true
                ),
                new(
                    "number",
                    ColumnType.Integer,
                    "How many; empty where some were seen and not counted.",
                    "1"
                ),
            ],
            [
                .. dossier.Outlook.House.Account.Occurrences.SelectMany(occurrence =>
                    Tally(occurrence.Fact) is var (vessel, what, number)
                        ? new IReadOnlyList<string>[]
                        {
                            [.. When(occurrence), Cell.Of(vessel.Value), what, Cell.Of(number)],
                        }
                        : []
                ),
            ]
        );

    private static (VesselId Vessel, string What, int? Number)? Tally(Fact fact) =>
        fact switch
        {
            CollectionMade { Into: { } into } made => (into, "collected", made.Number),
            DeadRemoved dead => (dead.Vessel, "dead", dead.Number),
            SettlementSeen settled => (settled.Vessel, "settled", settled.Number),
            JuvenilesReturned returned => (returned.From, "returned", returned.Number),
            JuvenilesCounted counted => (counted.Vessel, "juveniles-counted", counted.Number),
            JuvenilesGivenAway given => (given.Vessel, "given-away", given.Number),
            _ => null,
        };
}
