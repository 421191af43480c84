using Broodtide.Domain;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Review;

/// <summary>What is gathered about one cause before it is judged.</summary>
internal sealed class CauseEvidence(LossCause cause)
{
    public LossCause Cause => cause;

    public List<Remark> For { get; } = [];

    public List<Remark> Against { get; } = [];

    public List<Remark> Lacks { get; } = [];

    /// <summary>When and where it lay beyond a limit; a crossing has no vessel.</summary>
    public List<(VesselId? Vessel, Instant At)> Beyond { get; } = [];

    /// <summary>Whether what is known covers every phase with a loss.</summary>
    public bool Covered { get; set; }

    public int Days =>
        Beyond.Select(it => (it.Vessel, (long)(it.At - Instant.MinValue).TotalDays)).Distinct().Count();

    public CauseVerdict Verdict =>
        Beyond.Count > 0 ? CauseVerdict.SpokenFor
        : Covered && Lacks.Count == 0 ? CauseVerdict.RuledOut
        : CauseVerdict.CannotBeTold;
}
