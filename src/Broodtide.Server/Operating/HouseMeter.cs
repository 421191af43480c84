using System.Diagnostics.Metrics;

namespace Broodtide.Server.Operating;

/// <summary>What the house counts of its own: how often phones came, and how often and why they were refused.</summary>
internal sealed class HouseMeter : IDisposable
{
    public const string Name = "Broodtide";

    private readonly Meter _meter;
    private readonly Counter<long> _asked;
    private readonly Counter<long> _refused;
    private readonly Counter<long> _bytes;

    public HouseMeter(IMeterFactory factory)
    {
        _meter = factory.Create(Name);
        _asked = _meter.CreateCounter<long>(
            "broodtide.gate.requests",
            "{request}",
            "Requests of phones at the gate, by kind."
        );
        _refused = _meter.CreateCounter<long>(
            "broodtide.gate.refusals",
            "{request}",
            "Requests refused at the gate, by reason."
        );
        _bytes = _meter.CreateCounter<long>("broodtide.gate.received", "By", "Bytes that phones sent.");
    }

    public void Asked(string request, int bytes)
    {
        _asked.Add(1, new KeyValuePair<string, object?>("request", request));
        _bytes.Add(bytes);
    }

    public void Refused(string code) => _refused.Add(1, new KeyValuePair<string, object?>("reason", code));

    public void Dispose() => _meter.Dispose();
}
