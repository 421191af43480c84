using System.Diagnostics;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests.Sync;

/// <summary>What a phone asks of the journal's door, and when.</summary>
internal sealed class Requests
{
    private readonly Stopwatch _clock = Stopwatch.StartNew();
    private readonly List<(string Path, double Milliseconds)> _begun = [];

    public Requests(IBrowserContext context) =>
        context.Request += (_, request) =>
        {
            if (request.Url.Contains("/api/journal/", StringComparison.Ordinal))
            {
                lock (_begun)
                {
                    _begun.Add((request.Url, _clock.Elapsed.TotalMilliseconds));
                }
            }
        };

    public int Count
    {
        get
        {
            lock (_begun)
            {
                return _begun.Count;
            }
        }
    }

    public void Clear()
    {
        lock (_begun)
        {
            _begun.Clear();
        }
    }

    /// <summary>Tells how many of a kind there were, and how long it is since the first of them.</summary>
    public void Tell(string what, string kind)
    {
        lock (_begun)
        {
            var some = _begun.Where(one => one.Path.EndsWith(kind, StringComparison.Ordinal)).ToList();
            TestContext.Current.SendDiagnosticMessage(
                "{0}: {1} requests, {2:F0} ms since the first",
                what,
                some.Count,
                _clock.Elapsed.TotalMilliseconds - some.Min(one => one.Milliseconds)
            );
        }
    }
}
