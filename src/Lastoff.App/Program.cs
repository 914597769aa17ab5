using Lastoff.App;
using Lastoff.App.Device;
using Lastoff.App.Exchange;
using Lastoff.App.MapEditing;
using Microsoft.AspNetCore.Components.WebAssembly.Hosting;

var builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
builder.Services.AddSingleton(new HttpClient { BaseAddress = new Uri(builder.HostEnvironment.BaseAddress), Timeout = TimeSpan.FromSeconds(20) });
builder.Services.AddSingleton<Store>();
builder.Services.AddSingleton<Person>();
builder.Services.AddSingleton<Toolbox>();
builder.Services.AddSingleton<MapShelf>();
builder.Services.AddSingleton<MapDrafts>();
builder.Services.AddSingleton<Measures>();
builder.Services.AddSingleton<Courier>();
builder.Services.AddSingleton<PhotoCourier>();
builder.Services.AddSingleton<Door>();
builder.Services.AddSingleton(new Desk(new HttpClient { BaseAddress = new Uri(builder.HostEnvironment.BaseAddress), Timeout = TimeSpan.FromMinutes(5) }));

var app = builder.Build();
await Task.WhenAll(StoreModule.LoadAsync(), PageModule.LoadAsync(), DoorModule.LoadAsync(), PhotoModule.LoadAsync());
await app.Services.GetRequiredService<Person>().LoadAsync();
await app.Services.GetRequiredService<Measures>().LoadAsync();
await app.Services.GetRequiredService<Toolbox>().LoadAsync();
app.Services.GetRequiredService<Store>().Listen();
await app.Services.GetRequiredService<PhotoCourier>().StartAsync();
_ = app.Services.GetRequiredService<Courier>().StartAsync();
await app.RunAsync();
