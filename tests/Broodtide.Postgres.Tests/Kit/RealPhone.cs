using System.Net.Http.Headers;
using Broodtide.Server.Tests.People;
using Broodtide.Workbench.Sharing;
using Broodtide.Workbench.Tests.Sharing;
using NodaTime;

namespace Broodtide.Postgres.Tests.Kit;

/// <summary>
/// A phone with the real journal and the real meeting, rows in memory, and HTTP to the house; each request on a
/// connection of its own, so that a proxy sends it to any server.
/// </summary>
internal sealed class RealPhone : IServerLink, IDisposable
{
    private readonly Guest _guest;
    private readonly PhoneMeeting _meeting;

    public RealPhone(Guest guest)
    {
        _guest = guest;
        _guest.Headers.ConnectionClose = true;
        Journal = new PhoneJournal(Rows, new OnlyPen());
        _meeting = new PhoneMeeting(this, Journal, SystemClock.Instance);
    }

    public MemoryRows Rows { get; } = new();

    public PhoneJournal Journal { get; }

    public async Task OpenAsync(PersonId person)
    {
        await Journal.OpenAsync();
        await Journal.BelongsTo(person);
    }

    /// <summary>Meets the house once; what came is kept.</summary>
    public async Task<MeetingOutcome> MeetAsync()
    {
        var met = await _meeting.RunAsync(await Journal.ReadAllAsync());
        return met;
    }

    public async Task<byte[]> AskAsync(string request, byte[] body, CancellationToken cancellation = default)
    {
        try
        {
            using var content = new ByteArrayContent(body);
            content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
            using var answer = await _guest.Send(
                HttpMethod.Post,
                "/api/journal/" + request,
                content,
                withToken: true
            );
            var bytes = await answer.Content.ReadAsByteArrayAsync(cancellation);
            return answer.IsSuccessStatusCode ? bytes
                : (int)answer.StatusCode >= 500 ? throw new HouseAwayException($"{answer.StatusCode}")
                : throw HouseRefusedException.Of(bytes);
        }
        catch (HttpRequestException away)
        {
            throw new HouseAwayException(away.Message, away);
        }
    }

    public void Dispose() => _guest.Dispose();

    // One page of one app.
    private sealed class OnlyPen : IPen, IDisposable
    {
        public Task<IDisposable> Take(CancellationToken cancel = default) =>
            Task.FromResult<IDisposable>(this);

        public void Dispose() { }
    }
}
