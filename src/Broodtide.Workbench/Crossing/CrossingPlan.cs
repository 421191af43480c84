using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Crossing;

/// <summary>A plan, or why there is none.</summary>
public abstract record CrossingAnswer
{
    private protected CrossingAnswer() { }

    /// <summary>There is a plan.</summary>
    public sealed record Planned(CrossingPlan Plan) : CrossingAnswer;

    /// <summary>It cannot be; the refusal holds what can.</summary>
    public sealed record Refused(CrossingRefusal Refusal) : CrossingAnswer;
}

/// <summary>Which way the animals go.</summary>
public enum CrossingDirection
{
    /// <summary>Larvae, from fresh to salt.</summary>
    ToSalt,

    /// <summary>Juveniles, from salt to fresh.</summary>
    ToFresh,
}

/// <summary>One pour into the cup.</summary>
/// <param name="Number">1 for the first.</param>
/// <param name="OffsetMinutes">When, from the first pour.</param>
/// <param name="DrawOff">Water to draw off the cup through mesh before the pour; 0 where the cup has room.</param>
/// <param name="Add">Source water to pour in, at the source's temperature.</param>
/// <param name="StandMinutes">How long the cup then stands.</param>
/// <param name="After">The cup after the pour.</param>
/// <param name="IsBrackish">Whether it then stands brackish.</param>
public sealed record CrossingStep(
    int Number,
    double OffsetMinutes,
    Volume DrawOff,
    Volume Add,
    double StandMinutes,
    WaterBody After,
    bool IsBrackish
);

/// <summary>Pouring the cup, or a part of it, into the receiving vessel.</summary>
/// <param name="OffsetMinutes">When, from the first pour into the cup.</param>
/// <param name="Amount">How much of the cup; the last portion is all that is left.</param>
/// <param name="ReceivingAfter">The receiving vessel afterwards.</param>
public sealed record PouredPortion(double OffsetMinutes, Volume Amount, WaterBody ReceivingAfter);

/// <summary>How the cup gets into the receiving vessel.</summary>
/// <param name="CupDrawOff">Water drawn off the cup through mesh first, so that the receiving vessel changes less.</param>
/// <param name="ReceivingDrawOff">Water drawn off the receiving vessel first, to make room.</param>
/// <param name="Portions">One, or several where the vessel must not change at once.</param>
public sealed record Pouring(
    Volume CupDrawOff,
    Volume ReceivingDrawOff,
    IReadOnlyList<PouredPortion> Portions
);

/// <summary>How the receiving vessel is brought back to its target.</summary>
/// <param name="IsNeeded">Whether it lies outside its band; inside, the correction is a wish.</param>
/// <param name="Means">What it is made with.</param>
/// <param name="Steps">The changes, none over 1 ppt or 1 degC unless the order allows it.</param>
public sealed record ReceivingCorrection(
    bool IsNeeded,
    CorrectionMeans Means,
    IReadOnlyList<CorrectionStep> Steps
);

/// <summary>A crossing worked out.</summary>
/// <param name="Order">What it was worked out from.</param>
/// <param name="Direction">Which way it goes.</param>
/// <param name="Steps">The pours into the cup; none where the cup already is as wished.</param>
/// <param name="PourAtMinutes">When the cup is poured into the receiving vessel, from the first pour.</param>
/// <param name="Pouring">How it is poured.</param>
/// <param name="MinutesBrackish">
/// Minutes the last animals to leave the cup spend in brackish water, from the first pour to leaving it.
/// </param>
/// <param name="SourceUsed">Source water used.</param>
/// <param name="ReceivingAfter">The receiving vessel after the cup was poured in.</param>
/// <param name="Correction">How it is brought back.</param>
/// <param name="Notes">What else to know.</param>
public sealed record CrossingPlan(
    CrossingOrder Order,
    CrossingDirection Direction,
    IReadOnlyList<CrossingStep> Steps,
    double PourAtMinutes,
    Pouring Pouring,
    double MinutesBrackish,
    Volume SourceUsed,
    WaterBody ReceivingAfter,
    ReceivingCorrection Correction,
    IReadOnlyList<CrossingNote> Notes
);

/// <summary>Something to know about a plan.</summary>
/// <param name="Code">What it is.</param>
/// <param name="Amount">Its number, in the unit the code names.</param>
public sealed record CrossingNote(CrossingNoteCode Code, double Amount);

/// <summary>What a note says.</summary>
public enum CrossingNoteCode
{
    /// <summary>Water is drawn off through mesh; amount: how often.</summary>
    DrawnOffThroughMesh,

    /// <summary>More pours than wished, because the cup is small; amount: pours.</summary>
    MorePoursThanWished,

    /// <summary>The brackish part is hurried to keep its limit, the rest stands longer; amount: minutes brackish.</summary>
    BrackishPartHurried,

    /// <summary>A pour changes the cup's temperature by over 1 degC; amount: degC, the largest.</summary>
    CupTemperatureJump,

    /// <summary>The animals meet other salinity on being poured over; amount: ppt, receiving minus cup.</summary>
    SalinityOnPouring,

    /// <summary>The animals meet another temperature on being poured over, by over 1 degC; amount: degC, receiving minus cup.</summary>
    TemperatureOnPouring,

    /// <summary>The receiving vessel itself is brackish afterwards: the time there is not counted; amount: its salinity.</summary>
    ReceivingIsBrackish,

    /// <summary>The receiving vessel lies outside its band afterwards; amount: its salinity.</summary>
    ReceivingOutsideBand,

    /// <summary>The receiving vessel changes by over 1 ppt at once, as the order allows; amount: ppt.</summary>
    ReceivingSalinityJump,

    /// <summary>The receiving vessel changes by over 1 degC at once, as the order allows; amount: degC.</summary>
    ReceivingTemperatureJump,

    /// <summary>How much the receiving vessel holds is not known; amount: litres it holds at the fullest.</summary>
    ReceivingCapacityUnknown,

    /// <summary>The target of the band cannot be reached with fresh water; amount: the salinity that is.</summary>
    TargetNotReached,
}
