using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Domain.Keeping;

/// <summary>One treatment of a trial.</summary>
/// <param name="Name">What it is called, such as "25 ppt" or "as always".</param>
/// <param name="Value">What is varied, where it is a number.</param>
/// <param name="Control">Whether the others are compared with it.</param>
public sealed record TrialTreatment(string Name, TypedNumber? Value = null, bool? Control = null);

/// <summary>One vessel of a trial, with the treatment that chance gave it.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Treatment">Place of its treatment in the list of treatments, from 0.</param>
/// <param name="Block">Its block, from 1: larvae of one hatch on one shelf.</param>
public sealed record TrialVessel(VesselId Vessel, int Treatment, int Block);

/// <summary>A trial was laid out: which vessel gets which treatment, by chance, before anything is known of them.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Varied">What is varied, in the keeper's words.</param>
/// <param name="Treatments">The treatments, two or more.</param>
/// <param name="Vessels">The vessels.</param>
/// <param name="Seed">The seed that the treatments were dealt with: whoever deals again gets the same.</param>
/// <param name="Run">The run its larvae come from.</param>
/// <param name="Compared">What will be compared in the end, in the keeper's words, said before it is known.</param>
public sealed record TrialLaidOut(
    string Name,
    string Varied,
    IReadOnlyList<TrialTreatment> Treatments,
    IReadOnlyList<TrialVessel> Vessels,
    int Seed,
    RunId? Run = null,
    string? Compared = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() =>
        [
            .. Vessels.Select(vessel => Subject.Of(vessel.Vessel)).Distinct(),
            .. Run is { } run ? [Subject.Of(run)] : Array.Empty<Subject>(),
        ];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        Treatments
            .Where(treatment => treatment.Value?.KnownUnit() is not null)
            .Select(treatment =>
                ("treatments.value", treatment.Value, treatment.Value!.KnownUnit()!.Dimension)
            );

    /// <inheritdoc/>
    public override IEnumerable<(string Name, string? Code)> Codes() =>
        Treatments.Select(treatment => ("treatments.value", treatment.Value?.Unit));

    /// <inheritdoc/>
    public override IEnumerable<(string Name, long? Count)> Counts() =>
        [
            ("seed", Seed),
            .. Vessels.Select(vessel => ("vessels.treatment", (long?)vessel.Treatment)),
            .. Vessels.Select(vessel => ("vessels.block", (long?)vessel.Block)),
        ];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, IEnumerable<object?>? List)> Lists() =>
        [("treatments", Treatments), ("vessels", Vessels)];

    /// <inheritdoc/>
    private protected override Remark? Amiss() =>
        Treatments.Count < 2 ? new Remark("trial-one-treatment", new Argument("treatments", Treatments.Count))
        : Vessels.FirstOrDefault(vessel => vessel.Treatment >= Treatments.Count || vessel.Block < 1)
            is { } wrong
            ? new Remark(
                "trial-treatment-not-listed",
                new("treatment", wrong.Treatment),
                new("highest", Treatments.Count - 1)
            )
        : Vessels.DistinctBy(vessel => vessel.Vessel).Count() < Vessels.Count
            ? new Remark("trial-vessel-twice")
        : null;
}
