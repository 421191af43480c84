using System.Collections.Concurrent;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Server.Sensors;

/// <summary>A message that was refused, for the owner to see.</summary>
internal sealed record RefusedMessage(Instant At, string Topic, string Code);

/// <summary>What was refused since the start: how often by which code, and the last few.</summary>
internal sealed class RefusedMessages
{
    private const int MostKept = 50;
    private const int LongestTopic = 120;

    private readonly ConcurrentDictionary<string, long> _counts = new(StringComparer.Ordinal);
    private readonly ConcurrentQueue<RefusedMessage> _last = new();

    public IReadOnlyDictionary<string, long> ByCode => _counts;

    public IReadOnlyList<RefusedMessage> Last => [.. _last];

    public void Add(string topic, Remark refusal, Instant now)
    {
        _counts.AddOrUpdate(refusal.Code, 1, (_, count) => count + 1);
        _last.Enqueue(new(now, topic.Length > LongestTopic ? topic[..LongestTopic] : topic, refusal.Code));
        while (_last.Count > MostKept)
        {
            _last.TryDequeue(out _);
        }
    }
}
