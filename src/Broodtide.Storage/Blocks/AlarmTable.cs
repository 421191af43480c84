using System.Data.Common;
using Broodtide.Domain;
using Broodtide.Storage.Households;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Storage.Blocks;

/// <summary>The rows of alarms and of who was told of them.</summary>
internal sealed class AlarmTable(SharedTables connection)
{
    public bool Put(AlarmSpan alarm) =>
        connection.Run(
            "INSERT INTO alarm(id, sensor, vessel, kind, crossed, worst, since, raised, until, life, seen_at, seen_by) "
                + "VALUES($id, $sensor, $vessel, $kind, $limit, $worst, $since, $raised, $until, $life, $seenAt, $seenBy) "
                + "ON CONFLICT(id) DO UPDATE SET worst=excluded.worst, until=coalesce(alarm.until, excluded.until), "
                + "seen_by=CASE WHEN alarm.seen_at IS NULL THEN excluded.seen_by ELSE alarm.seen_by END, "
                + "seen_at=coalesce(alarm.seen_at, excluded.seen_at)",
            ("$id", alarm.Id.Bytes()),
            ("$sensor", alarm.Sensor.ToString()),
            ("$vessel", alarm.Vessel?.Value.Bytes()),
            ("$kind", alarm.Kind.ToString()),
            ("$limit", alarm.Limit),
            ("$worst", alarm.Worst),
            ("$since", alarm.From.Milliseconds()),
            ("$raised", alarm.Raised.Milliseconds()),
            ("$until", alarm.Until?.Milliseconds()),
            ("$life", alarm.IsLifeThreatening ? 1 : 0),
            ("$seenAt", alarm.Seen?.At.Milliseconds()),
            ("$seenBy", alarm.Seen?.Person.Bytes())
        ) == 1;

    public IReadOnlyList<AlarmSpan> Since(Instant since) =>
        connection.List(
            Read,
            "SELECT id, sensor, vessel, kind, crossed, worst, since, raised, until, life, seen_at, seen_by FROM alarm "
                + "WHERE until IS NULL OR until >= $since ORDER BY since, id",
            ("$since", ReadingTable.CeilingOf(since))
        );

    // One statement: of two that claim at once one finds what the other wrote.
    public bool Claim(string work, Guid holder, Instant now, Instant until) =>
        connection.Run(
            "INSERT INTO claim(work, holder, until) VALUES($work, $holder, $until) ON CONFLICT(work) DO UPDATE "
                + "SET holder=excluded.holder, until=excluded.until "
                + "WHERE claim.until <= $now OR claim.holder = excluded.holder",
            ("$work", work),
            ("$holder", holder.Bytes()),
            ("$until", until.Milliseconds()),
            ("$now", now.Milliseconds())
        ) == 1;

    public bool Add(AlarmDelivery delivery) =>
        connection.Run(
            "INSERT INTO delivery(alarm, at, way, told, step, failure) VALUES($alarm, $at, $way, $to, $step, $failure)",
            ("$alarm", delivery.Alarm.Bytes()),
            ("$at", delivery.At.Milliseconds()),
            ("$way", delivery.Way),
            ("$to", delivery.To),
            ("$step", delivery.Step),
            ("$failure", delivery.Failure)
        ) == 1;

    public IReadOnlyList<AlarmDelivery> Deliveries(Instant since) =>
        connection.List(
            row => new AlarmDelivery(
                row.Id(0),
                row.Moment(1),
                row.GetString(2),
                row.GetString(3),
                (int)row.GetInt64(4),
                row.IsDBNull(5) ? null : row.GetString(5)
            ),
            "SELECT alarm, at, way, told, step, failure FROM delivery WHERE at >= $since ORDER BY at, number",
            ("$since", ReadingTable.CeilingOf(since))
        );

    private static AlarmSpan Read(DbDataReader row) =>
        new()
        {
            Id = row.Id(0),
            Sensor =
                SensorId.Find(row.GetString(1))
                ?? throw new InvalidOperationException("A sensor's name is not plain."),
            Vessel = row.IdOrNone(2) is { } vessel ? new VesselId(vessel) : null,
            Kind = Enum.Parse<AlarmKind>(row.GetString(3)),
            Limit = row.GetDouble(4),
            Worst = SensorTable.Number(row, 5),
            From = row.Moment(6),
            Raised = row.Moment(7),
            Until = row.MomentOrNone(8),
            IsLifeThreatening = row.GetInt64(9) != 0,
            Seen = row.MomentOrNone(10) is { } at ? new(at, row.Id(11)) : null,
        };
}
