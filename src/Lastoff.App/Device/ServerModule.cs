using System.Runtime.InteropServices.JavaScript;

namespace Lastoff.App.Device;

/// <summary>The functions of <c>server.js</c>, where they are told.</summary>
internal static partial class ServerModule
{
    private const string Module = "server";

    public static Task LoadAsync() => JSHost.ImportAsync(Module, "../server.js");

    /// <param name="number">By which the question can be stopped.</param>
    /// <param name="patience">In milliseconds.</param>
    [JSImport("ask", Module)]
    public static partial Task<JSObject> AskAsync(int number, string method, string path, string? body, string type, int patience);

    [JSImport("stop", Module)]
    public static partial void Stop(int number);
}
