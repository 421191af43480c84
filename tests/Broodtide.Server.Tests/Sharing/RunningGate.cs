using System.Net.Http.Headers;
using Broodtide.Domain;
using Broodtide.Server.Operating;
using Broodtide.Server.People;
using Broodtide.Server.Sharing;
using Broodtide.Storage.Households;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench.Sharing;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using NodaTime;

namespace Broodtide.Server.Tests.Sharing;

/// <summary>
/// The gate over HTTP with its files on a disk, and a session for everybody who says a name: how sessions are proved
/// is not what is tested here.
/// </summary>
internal sealed class RunningGate : IAsyncDisposable, IPeopleOfTheHouse
{
    private const string Who = "X-Who";

    private static readonly Dictionary<string, Visitor> People = new(StringComparer.Ordinal)
    {
        ["Ada"] = Person("Ada", Role.Owner),
        ["Ben"] = Person("Ben", Role.Keeper),
        ["Cleo"] = Person("Cleo", Role.Helper),
        ["Dan"] = Person("Dan", Role.Reader),
    };

    private readonly DirectoryInfo _folder;
    private readonly SqliteJournal _journal;
    private readonly HouseFile _house;
    private readonly Gate _gate;
    private readonly WebApplication _app;
    private readonly HttpClient _client;

    private RunningGate(SqliteJournal journal, HouseFile house, DirectoryInfo folder)
    {
        (_journal, _house, _folder) = (journal, house, folder);
        Memory = new HouseSharing(house);
        _gate = new Gate(journal, Memory, this, SystemClock.Instance);
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Services.AddSingleton<HouseMeter>();
        _app = builder.Build();
        _app.Use(
            (context, next) =>
            {
                if (People.TryGetValue(context.Request.Headers[Who].ToString(), out var visitor))
                {
                    context.User = visitor.ToPrincipal("told");
                }

                return next(context);
            }
        );
        _app.MapJournal(_gate);
        _app.MapSharing(_gate);
        _client = new HttpClient();
    }

    public HouseSharing Memory { get; }

    public ReplicaId Own => _journal.Replica;

    public static async Task<RunningGate> StartAsync()
    {
        var folder = Directory.CreateTempSubdirectory("broodtide-gate-");
        var gate = new RunningGate(
            await SqliteJournal.OpenAsync(Path.Combine(folder.FullName, "journal.db"), "server"),
            HouseFile.Open(Path.Combine(folder.FullName, "house.db")),
            folder
        );
        await gate._app.StartAsync();
        gate._client.BaseAddress = new Uri(gate._app.Urls.First());
        return gate;
    }

    public IReadOnlyList<SigningName> Names() =>
        [.. People.Values.Select(person => new SigningName(person.Person, person.Name))];

    /// <summary>Sends something as somebody. Answers the status and what came.</summary>
    public async Task<(int Status, string Text)> PostAsync(
        string? who,
        string path,
        byte[] body,
        string mediaType = "application/json"
    )
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(path, UriKind.Relative))
        {
            Content = new ByteArrayContent(body),
        };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue(mediaType);
        return await SendAsync(who, request);
    }

    public async Task<(int Status, string Text)> GetAsync(string? who, string path)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(path, UriKind.Relative));
        return await SendAsync(who, request);
    }

    /// <summary>Every byte of every entry, as the store holds it.</summary>
    public async Task<IReadOnlyList<string>> BytesAsync() =>
        [
            .. (await _journal.ReadAllAsync()).Select(entry =>
                $"{Convert.ToHexString(entry.Bytes.Envelope.Span)} {Convert.ToHexString(entry.Bytes.SaltedBody.Span)}"
            ),
        ];

    public async ValueTask DisposeAsync()
    {
        _client.Dispose();
        await _app.DisposeAsync();
        _gate.Dispose();
        await _journal.DisposeAsync();
        _house.Dispose();
        _folder.Delete(recursive: true);
    }

    private async Task<(int Status, string Text)> SendAsync(string? who, HttpRequestMessage request)
    {
        if (who is not null)
        {
            request.Headers.Add(Who, who);
        }

        using var answer = await _client.SendAsync(request, TestContext.Current.CancellationToken);
        return (
            (int)answer.StatusCode,
            await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)
        );
    }

    private static Visitor Person(string name, Role role) =>
        new(new PersonId(Guid.CreateVersion7()), name, role);
}
