using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Domain.Vessels;

/// <summary>What was foretold of one quantity at one time.</summary>
/// <param name="Quantity">What, such as "tan" or "oxygen".</param>
/// <param name="Hours">Hours after the forecast was made.</param>
/// <param name="Unit">Unit code of the three points.</param>
/// <param name="Low">The 5 % point.</param>
/// <param name="Middle">The median.</param>
/// <param name="High">The 95 % point.</param>
public sealed record ForetoldPoint(
    string Quantity,
    double Hours,
    string Unit,
    double Low,
    double Middle,
    double High
);

/// <summary>
/// What the software foretold of the water of a vessel, written down once a day, so that it can be held against what was
/// measured later. Where several stores write one, the earliest written is the one that counts.
/// </summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Day">The civil day it was made on, ISO 8601.</param>
/// <param name="Engine">Name and version of the software that computed it.</param>
/// <param name="KnownUntil">Entries written up to this instant were known.</param>
/// <param name="From">The instant from which the hours are counted.</param>
/// <param name="Points">Each quantity at its hours, hours ascending.</param>
public sealed record WaterForetold(
    VesselId Vessel,
    string Day,
    string Engine,
    Instant KnownUntil,
    Instant From,
    IReadOnlyList<ForetoldPoint> Points
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, double? Value, double Lowest, double Highest)> Plain() =>
        Points.SelectMany(point =>
            new (string, double?, double, double)[]
            {
                ("points.hours", point.Hours, 0, 1000),
                ("points.low", point.Low, double.MinValue, double.MaxValue),
                ("points.middle", point.Middle, point.Low, double.MaxValue),
                ("points.high", point.High, point.Middle, double.MaxValue),
            }
        );

    /// <inheritdoc/>
    public override IEnumerable<(string Name, string? Code)> Codes() =>
        Points.Select(point => ("points.unit", (string?)point.Unit));

    /// <inheritdoc/>
    public override IEnumerable<(string Name, IEnumerable<object?>? List)> Lists() => [("points", Points)];

    /// <inheritdoc/>
    private protected override Remark? Amiss() =>
        LocalDatePattern.Iso.Parse(Day).Success
            ? null
            : new Remark("day-unreadable", new("field", "day"), new("typed", Day));
}
